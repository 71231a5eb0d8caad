import type { FirmTransaction } from "../../db/scope.ts";
import { appendToLedger } from "../ledger/store.ts";
import {
  type Move,
  type Moved,
  requireAfterLastMove,
  requireJobAt,
  takeJob,
  takeUnit,
} from "./move.ts";
import { addUnitEvent, NOWHERE, placeUnit } from "./move-store.ts";

export interface Removal extends Move {
  unitId: string;
  reason: string;
}

/** Takes a unit out of use with nothing in its place. */
export async function removeUnit(tx: FirmTransaction, move: Removal): Promise<Moved> {
  const { unitId, personId, at, reason: note } = move;
  const job = await takeJob(tx, move.jobId);
  const { siteId, serial, modelId } = await takeUnit(tx, unitId);
  if (siteId === null) return { unitId, moved: false };
  requireJobAt(job, siteId);
  await requireAfterLastMove(tx, at, [unitId]);
  await placeUnit(tx, unitId, { state: "removed", ...NOWHERE });
  const event = { unitId, kind: "removed", siteId, jobId: job?.id, personId, at, note } as const;
  const eventId = await addUnitEvent(tx, event);
  if (job) {
    const body = { unitId, serial, modelId, siteId, eventId, removedAt: at.toISOString() };
    await appendToLedger(tx, job.id, { kind: "unit.removed", body, at: move.now ?? at });
  }
  return { unitId, moved: true };
}
