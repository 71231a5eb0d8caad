import type { FirmTransaction } from "../../db/scope.ts";
import { raiseEvent } from "../webhooks/raise-event.ts";
import { leastTargetKey, updatedOnJob } from "./updated-store.ts";

/** At the close-out of an update job: an event for each unit that is on target by it. */
export async function tellUpdated(tx: FirmTransaction, jobId: string, now: Date): Promise<void> {
  for (const { unitId, level, readAt } of await updatedOnJob(tx, jobId)) {
    const data = { unitId, level, jobId, readAt: readAt.toISOString() };
    await raiseEvent(tx, { kind: "firmware.updated", data }, now);
  }
}

/** After a reading that came without a job: an event where it lifted the unit onto its target. */
export async function tellReading(
  tx: FirmTransaction,
  reading: { unitId: string; level: string; levelKey: bigint | null; readAt: Date },
  before: bigint | null,
  now: Date,
): Promise<void> {
  const { unitId, level, levelKey, readAt } = reading;
  if (levelKey === null) return;
  const target = await leastTargetKey(tx, unitId);
  if (target === undefined || levelKey < target) return;
  if (before !== null && before >= target) return;
  const data = { unitId, level, jobId: null, readAt: readAt.toISOString() };
  await raiseEvent(tx, { kind: "firmware.updated", data }, now);
}
