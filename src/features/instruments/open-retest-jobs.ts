// One re-test job for each site where readings are in doubt and none covers them yet; asked again,
// it opens nothing twice.
import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { doubtSpans } from "../../domain/acceptance/instrument-doubt.ts";
import { notFound, Problem } from "../../errors.ts";
import { openJob } from "../jobs/open-job.ts";
import { appendToLedger } from "../ledger/store.ts";
import type { RetestJobs, RetestRequest } from "./affected-schemas.ts";
import {
  addRetest,
  listRetests,
  lockRetests,
  type SiteInDoubt,
  sitesInDoubt,
} from "./retest-store.ts";
import { factsOf } from "./standing.ts";
import { findInstrument } from "./store.ts";

const OPENED_MOST = 40;
const SHOWN_MOST = 200;

interface Retest {
  instrument: { id: string; reference: string };
  plan: NonNullable<z.infer<typeof RetestRequest>>;
  personId: string;
  now: Date;
}

export async function openRetestJobs(
  tx: FirmTransaction,
  instrumentId: string,
  plan: Retest["plan"],
  act: { personId: string; now: Date },
): Promise<z.infer<typeof RetestJobs>> {
  const instrument = await findInstrument(tx, instrumentId);
  if (!instrument) throw notFound("instrument");
  await lockRetests(tx, instrumentId);
  const sites = await sitesInDoubt(tx, instrumentId, doubtSpans(factsOf(instrument)));
  const waiting = sites.filter(({ archived }) => !archived);
  const opened = new Set<string>();
  for (const site of waiting.slice(0, OPENED_MOST)) {
    opened.add(await openAt(tx, site, { instrument, plan, ...act }));
  }
  const rows = await listRetests(tx, instrumentId, SHOWN_MOST);
  return {
    items: rows.map(({ job, site, ...row }) => ({
      ...row,
      ...job,
      state: job.state as "open" | "closed",
      siteReference: site.reference,
      opened: opened.has(row.jobId),
    })),
    skipped: sites
      .filter(({ archived }) => archived)
      .map(({ siteId, siteReference }) => ({
        siteId,
        siteReference,
        reason: `Site ${siteReference} is archived: bring the site back first.`,
      })),
    remaining: waiting.length - opened.size,
  };
}

async function openAt(
  tx: FirmTransaction,
  { siteId, originJobId, planVersionId, unitIds }: SiteInDoubt,
  { instrument, plan, personId, now }: Retest,
): Promise<string> {
  const pinned = plan.planId || plan.planVersionId ? plan : { planVersionId };
  const fields = {
    siteId,
    kind: "inspection" as const,
    title: `Re-test: readings of ${instrument.reference} are in doubt`,
    units: unitIds.map((unitId) => ({ unitId })),
    ...pinned,
  };
  const jobId = await openJob(tx, fields, personId, now).catch(atThePlan(plan));
  await addRetest(tx, { jobId, instrumentId: instrument.id, siteId, originJobId });
  const own = { instrumentId: instrument.id, originJobId, personId };
  await appendToLedger(tx, jobId, { kind: "job.retest", body: own, at: now });
  const origin = { instrumentId: instrument.id, personId, retestJobId: jobId };
  await appendToLedger(tx, originJobId, { kind: "job.retest-opened", body: origin, at: now });
  return jobId;
}

/** The request names no unit: what a unit lacks for a plan, the plan asks too much. */
const atThePlan =
  ({ planId }: Retest["plan"]) =>
  (error: unknown): never => {
    if (error instanceof Problem && error.code === "invalid-input") {
      const pointer = planId ? "/body/planId" : "/body/planVersionId";
      throw new Problem(error.code, error.message, {
        errors: [{ pointer, detail: error.message }],
      });
    }
    throw error;
  };
