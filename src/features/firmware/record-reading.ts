import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { lockJob } from "../jobs/store.ts";
import { appendToLedger } from "../ledger/store.ts";
import { keyOfUnit, type LevelReading, recordFirmwareReading } from "./level-store.ts";
import { tellReading } from "./tell-updated.ts";

/** What sends the reading may have a clock that runs ahead of ours by so much. */
const CLOCK_LEAD_MS = 5 * 60_000;

/** What is wrong with the moment of a reading, if anything is. */
export const readAtFault = (readAt: Date, now: Date): string | undefined =>
  readAt.getTime() > now.getTime() + CLOCK_LEAD_MS
    ? "lies in the future; check the clock it was read by"
    : undefined;

/** A level read outside a tablet's answers; on a job it goes on that job's ledger. */
export async function recordReading(tx: FirmTransaction, reading: LevelReading, now: Date) {
  const fault = readAtFault(reading.readAt, now);
  if (fault) throw invalid("/body/readAt", fault);
  if (reading.jobId !== undefined) await requireOpenJob(tx, reading.jobId);
  const before = await keyOfUnit(tx, reading.unitId);
  const row = await recordFirmwareReading(tx, reading, now);
  if (!row) throw notFound("unit");
  if (row.jobId === null) await tellReading(tx, row, before, now);
  if (row.jobId !== null) {
    const { id: readingId, unitId, level, flag, source, personId } = row;
    const facts = { readingId, unitId, level, flag, source, personId };
    const body = { ...facts, readAt: row.readAt.toISOString() };
    await appendToLedger(tx, row.jobId, { kind: "firmware.read", body, at: now });
  }
  return row;
}

async function requireOpenJob(tx: FirmTransaction, jobId: string): Promise<void> {
  const job = await lockJob(tx, jobId);
  if (!job) throw invalid("/body/jobId", "There is no such job in your firm.");
  if (job.state === "open") return;
  throw new Problem("job-not-open", `${job.reference} is ${job.state}; it takes no more readings.`);
}
