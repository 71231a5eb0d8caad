import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { learnDurations } from "./learn-durations.ts";
import type { UnplacedJob } from "./schemas.ts";
import { unplacedJobs } from "./unplaced-store.ts";

export type Unplaced = z.infer<typeof UnplacedJob>;

/** Open jobs that wait for a visit, each with how long it is likely to take. */
export async function listUnplaced(
  tx: FirmTransaction,
  filter: Parameters<typeof unplacedJobs>[1],
): Promise<Unplaced[]> {
  const rows = await unplacedJobs(tx, filter);
  const durationOf = await learnDurations(tx, [...new Set(rows.map(({ kind }) => kind))]);
  return rows.map(({ planVersion, recurringInspection, visits, createdAt, site, ...job }) => ({
    ...job,
    kind: job.kind as Unplaced["kind"],
    site: { ...site, name: site.name ?? site.addressLine },
    openedAt: createdAt.toISOString(),
    dueOn: recurringInspection?.dueOn.toISOString().slice(0, 10) ?? null,
    lastVisitAt: visits[0]?.startsAt.toISOString() ?? null,
    duration: durationOf({ planId: planVersion.planId, kind: job.kind }),
  }));
}
