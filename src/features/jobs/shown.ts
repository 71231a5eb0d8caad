import type { z } from "zod";
import type { JobDetail } from "./detail-store.ts";
import type { ListedJob } from "./list-store.ts";
import type { Job, JobSummary, JobUnit, JobVisit } from "./schemas.ts";
import type { jobUnits } from "./store.ts";

export function shownSummary({
  site,
  planVersion,
  visits,
  _count,
  ...job
}: ListedJob): z.infer<typeof JobSummary> {
  const [next] = visits;
  return {
    ...ofJob(job),
    customer: site.customer,
    site,
    planVersion: shownPin(planVersion),
    unitCount: _count.units,
    openSnagCount: _count.snags,
    nextVisit: next ? shownVisit(next) : null,
  };
}

export function shownJob(detail: JobDetail): z.infer<typeof Job> {
  const { site, planVersion, ...job } = detail.job;
  const { openSnagCount, closeOut, cancellation } = detail;
  return {
    ...ofJob(job),
    customer: site.customer,
    site,
    planVersion: shownPin(planVersion),
    units: detail.units.map(shownUnit),
    visits: detail.visits.map(shownVisit),
    openSnagCount,
    closeOut: closeOut && {
      ...closeOut,
      closedAt: closeOut.closedAt.toISOString(),
      outcomes: countOutcomes(closeOut.facts as { outcome: string }[]),
    },
    cancellation,
  };
}

export function shownUnit({
  unitId,
  position,
  unit,
}: Awaited<ReturnType<typeof jobUnits>>[number]): z.infer<typeof JobUnit> {
  const { serial, modelId, model, hardwareRevision, state, siteId, firmwareLevel } = unit;
  return {
    unitId,
    position,
    serial,
    modelId,
    modelCode: model.code,
    modelName: model.name,
    kind: model.kind,
    hardwareRevision,
    state,
    siteId,
    firmwareLevel,
  };
}

type OwnFields = Pick<
  ListedJob,
  "id" | "reference" | "kind" | "title" | "state" | "createdAt" | "createdById" | "version"
>;

function ofJob({ kind, state, createdAt, ...job }: OwnFields) {
  return {
    ...job,
    kind: kind as z.infer<typeof Job>["kind"],
    state: state as z.infer<typeof Job>["state"],
    createdAt: createdAt.toISOString(),
  };
}

function shownPin({ plan, ...version }: ListedJob["planVersion"]) {
  return { ...version, ...plan };
}

function shownVisit(visit: JobDetail["visits"][number]): z.infer<typeof JobVisit> {
  const { startsAt, endsAt } = visit;
  return { ...visit, startsAt: startsAt.toISOString(), endsAt: endsAt.toISOString() };
}

function countOutcomes(facts: readonly { outcome: string }[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { outcome } of facts) counts[outcome] = (counts[outcome] ?? 0) + 1;
  return counts;
}
