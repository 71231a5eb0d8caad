import type { FirmTransaction } from "../../db/scope.ts";
import {
  type LearntDuration,
  learntDuration,
  SAMPLES_MOST,
  workedMinutes,
} from "../../domain/scheduling/learnt-duration.ts";
import { type TimedRow, timedStages } from "./duration-store.ts";

/** Some of the last ones may say nothing, so twice as many are read. */
const READ_MOST = 2 * SAMPLES_MOST;

export type Durations = (job: { planId: string; kind: string }) => LearntDuration;

/** How long jobs of these kinds take, by what the firm's closed jobs took. */
export async function learnDurations(
  tx: FirmTransaction,
  kinds: readonly string[],
): Promise<Durations> {
  const byJob = new Map<string, TimedRow[]>();
  for (const row of await timedStages(tx, kinds, READ_MOST)) {
    byJob.set(row.jobId, [...(byJob.get(row.jobId) ?? []), row]);
  }
  const jobs = [...byJob.values()].flatMap((rows) => {
    const [first] = rows;
    return first ? [{ ...first, minutes: workedMinutes(rows.map(stageOf)) }] : [];
  });
  return ({ planId, kind }) => {
    const ofPlan = jobs.filter((job) => job.planId === planId && job.ofPlan <= READ_MOST);
    const ofKind = jobs.filter((job) => job.kind === kind && job.ofKind <= READ_MOST);
    return learntDuration(
      minutesOf(ofPlan.toSorted((a, b) => a.ofPlan - b.ofPlan)),
      minutesOf(ofKind.toSorted((a, b) => a.ofKind - b.ofKind)),
      kind,
    );
  };
}

const minutesOf = (jobs: readonly { minutes: number }[]): number[] =>
  jobs.map(({ minutes }) => minutes);

const stageOf = ({ startedAt, endedAt, activeMs }: TimedRow) => ({
  ...{ startMs: startedAt.getTime(), endMs: endedAt.getTime(), activeMs },
});
