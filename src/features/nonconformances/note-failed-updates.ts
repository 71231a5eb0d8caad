// An update that did not take is followed up like any other thing that does not conform, and counts
// against the ring that its site is in.
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import { cutTo } from "../../web/form.ts";
import { decideRings, type RingDecision } from "../firmware/roll-out.ts";
import { lockJob } from "../jobs/store.ts";
import { appendToLedger } from "../ledger/store.ts";
import { addNonconformance, releaseFor, unitsLeftBelow } from "./store.ts";

interface Who {
  personId: string;
  now: Date;
}

/** At the close-out of an update job: units that were read below their target all the same. */
export async function noteFailedUpdates(
  tx: FirmTransaction,
  jobId: string,
  who: Who,
): Promise<RingDecision[]> {
  const failed = await unitsLeftBelow(tx, jobId);
  for (const { unitId, siteId, releaseId, level } of failed) {
    const title = `Firmware update left the unit at ${level}`;
    await openFor(tx, { jobId, unitId, siteId, releaseId, title }, who);
  }
  return failed.length > 0 ? decideRings(tx, who.now) : [];
}

/** Told by whoever stands before the unit, whatever level it shows, if it shows one. */
export async function tellFailedUpdate(
  tx: FirmTransaction,
  jobId: string,
  { unitId, note }: { unitId: string; note?: string | undefined },
  who: Who,
) {
  const job = await lockJob(tx, jobId);
  const release = await releaseFor(tx, unitId);
  if (!job || !release) {
    throw invalid("/body/unitId", "No release is due on such a unit of your firm.");
  }
  const { releaseId, siteId, level, serial } = release;
  const title = note ?? `Update of ${serial} to ${level} failed`;
  const row = await openFor(tx, { jobId, unitId, siteId, releaseId, title }, who);
  await decideRings(tx, who.now);
  return row;
}

interface Failed {
  jobId: string;
  unitId: string;
  siteId: string;
  releaseId: string;
  title: string;
}

async function openFor(tx: FirmTransaction, failed: Failed, { personId, now }: Who) {
  const fields = { ...failed, title: cutTo(failed.title, 200), kind: "firmware-update" };
  const row = await addNonconformance(tx, { ...fields, openedById: personId }, now);
  if (!row) return undefined;
  const { jobId, unitId, releaseId } = failed;
  const body = { nonconformanceId: row.id, reference: row.reference, unitId, releaseId, personId };
  await appendToLedger(tx, jobId, { kind: "nonconformance.opened", body, at: now });
  return row;
}
