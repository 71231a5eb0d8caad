// What every move of a unit shares. Locks are taken in one order everywhere, job before bank before
// units by id, so that two moves that meet wait for each other and never deadlock.
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { findLastMove, lockJob, lockUnits, type MoveJob } from "./move-store.ts";
import { findUnit, type UnitRow } from "./store.ts";

/** Who moves a unit, when, and on which job. */
export interface Move {
  jobId?: string;
  personId: string;
  /** When it was done. */
  at: Date;
  /** When it is recorded; the same when left out. */
  now?: Date;
}

export interface Moved {
  unitId: string;
  /** False when there was nothing to do: it is there, or gone, already. */
  moved: boolean;
}

/** A tablet's clock may run ahead of ours by so much; what it says is then taken as now. */
const CLOCK_SLACK_MS = 5 * 60_000;

/** The moment that a request gives, or now; nothing is moved in the future. */
export function momentGiven(text: string | undefined, now: Date): Date {
  if (text === undefined) return now;
  const at = new Date(text);
  if (at.getTime() <= now.getTime()) return at;
  if (at.getTime() <= now.getTime() + CLOCK_SLACK_MS) return now;
  throw invalid("/body/at", "lies in the future");
}

/** What was done to a unit later stands; a move before it would leave a history that cannot be. */
export async function requireAfterLastMove(
  tx: FirmTransaction,
  at: Date,
  unitIds: string[],
): Promise<void> {
  const last = await findLastMove(tx, unitIds);
  if (!last || last.at.getTime() <= at.getTime()) return;
  const moved = `the unit was ${last.kind} on ${last.at.toISOString()}`;
  throw invalid("/body/at", `is before an earlier move: ${moved}`);
}

/** Locks the job, which has to be open; undefined when the move is not part of one. */
export async function takeJob(
  tx: FirmTransaction,
  jobId: string | undefined,
): Promise<MoveJob | undefined> {
  if (jobId === undefined) return undefined;
  const job = await lockJob(tx, jobId);
  if (!job) throw invalid("/body/jobId", "There is no such job in your firm.");
  if (job.state === "open") return job;
  const detail = `${job.reference} is ${job.state}: its units stay as they are.`;
  throw new Problem("job-not-open", detail);
}

export function requireJobAt(job: MoveJob | undefined, siteId: string): void {
  if (!job || job.siteId === siteId) return;
  throw invalid("/body/jobId", `${job.reference} is a job at another site.`);
}

/** Locks the unit and reads it as it is from then on. */
export async function takeUnit(tx: FirmTransaction, id: string): Promise<UnitRow> {
  await lockUnits(tx, [id]);
  return requireUnit(tx, id);
}

export async function requireUnit(tx: FirmTransaction, id: string): Promise<UnitRow> {
  const unit = await findUnit(tx, id);
  if (!unit) throw notFound("unit");
  return unit;
}
