import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { lockJob } from "../jobs/store.ts";
import { appendToLedger } from "../ledger/store.ts";
import { type LevelReading, recordFirmwareReading } from "./level-store.ts";

/** What sends the reading may have a clock that runs ahead of ours by so much. */
const CLOCK_LEAD_MS = 5 * 60_000;

/** A level read outside a tablet's answers; on a job it goes on that job's ledger. */
export async function recordReading(tx: FirmTransaction, reading: LevelReading, now: Date) {
  if (reading.readAt.getTime() > now.getTime() + CLOCK_LEAD_MS) {
    throw invalid("/body/readAt", "lies in the future; check the clock it was read by");
  }
  if (reading.jobId !== undefined) await requireOpenJob(tx, reading.jobId);
  const row = await recordFirmwareReading(tx, reading, now);
  if (!row) throw notFound("unit");
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
