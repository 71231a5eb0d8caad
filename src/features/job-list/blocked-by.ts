// What stands in the way of a job is worked out, not stored: the list is looked through in bounded
// steps, all jobs of a step in a few round trips.
import type { Database } from "../../db/client.ts";
import { pipelineQuery } from "../../db/query.ts";
import { inFirmPipelined } from "../../db/scope.ts";
import type { Outcome } from "../../domain/acceptance/verdict.ts";
import { evaluateBy } from "../close-out/evaluate.ts";

export const BLOCKED_BY = [
  ...(["anything", "nothing", "missing", "not-met", "instrument", "sequence"] as const),
] as const;
export type BlockedBy = (typeof BLOCKED_BY)[number];

const OUTCOMES: Readonly<Record<string, readonly Outcome[]>> = {
  missing: ["missing"],
  "not-met": ["fail", "marginal"],
  instrument: ["stale-instrument"],
  sequence: ["out-of-sequence"],
};

/** How many hold points of each job are open, and whether it is one of those asked for. */
export async function standingOfJobs(
  db: Database,
  firmId: string,
  jobIds: readonly string[],
  blockedBy: BlockedBy | undefined,
  now: Date,
): Promise<Map<string, { open: number; isAsked: boolean }>> {
  if (jobIds.length === 0) return new Map();
  const evaluated = await inFirmPipelined(db, firmId, (pipeline) => {
    const query = pipelineQuery(pipeline);
    return Promise.all(jobIds.map((id) => evaluateBy(query, firmId, id, now, { lock: false })));
  });
  return new Map(
    evaluated.flatMap((job) => {
      if (!job) return [];
      const { blockers, facts } = job.result;
      const blocking = new Set(blockers.map(({ itemId, subject }) => `${itemId} ${subject}`));
      const outcomes = facts
        .filter(({ itemId, subject }) => blocking.has(`${itemId} ${subject}`))
        .map(({ outcome }) => outcome);
      return [
        [job.record.job.id, { open: blockers.length, isAsked: isAsked(blockedBy, outcomes) }],
      ];
    }),
  );
}

function isAsked(blockedBy: BlockedBy | undefined, outcomes: readonly Outcome[]): boolean {
  if (blockedBy === undefined) return true;
  if (blockedBy === "nothing") return outcomes.length === 0;
  if (blockedBy === "anything") return outcomes.length > 0;
  return outcomes.some((outcome) => OUTCOMES[blockedBy]?.includes(outcome));
}
