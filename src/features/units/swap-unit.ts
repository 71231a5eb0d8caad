import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, Problem } from "../../errors.ts";
import { appendToLedger } from "../ledger/store.ts";
import { requireInstallable } from "./install-unit.ts";
import { type Move, requireAfterLastMove, requireJobAt, requireUnit, takeJob } from "./move.ts";
import {
  addUnitEvent,
  followSwapOnJob,
  lockUnits,
  type MoveJob,
  NOWHERE,
  placeUnit,
} from "./move-store.ts";
import { receiveUnit, serialByRule } from "./receive-unit.ts";
import { findUnit, findUnitBySerial, type UnitRow } from "./store.ts";

export interface Swap extends Move {
  /** The unit that goes. */
  unitId: string;
  /** The unit that comes: by id, or by serial and model (that of the old one when left out). */
  newUnitId?: string;
  newSerial?: string;
  modelId?: string;
  reason: string;
}

export interface Swapped {
  oldUnitId: string;
  newUnitId: string;
}

/** One unit out, another in, at the same site and place of its bank; the chain is kept. */
export async function swapUnit(tx: FirmTransaction, move: Swap): Promise<Swapped> {
  const job = await takeJob(tx, move.jobId);
  const newUnitId = await incomingUnit(tx, move);
  await lockUnits(tx, [move.unitId, newUnitId]);
  const old = await requireUnit(tx, move.unitId);
  const fresh = await requireUnit(tx, newUnitId);
  const siteId = siteOf(old);
  requireJobAt(job, siteId);
  if (fresh.kind !== old.kind) {
    const detail = `A ${old.kind} is swapped for a ${old.kind}, not for a ${fresh.kind}.`;
    throw invalid(pointerOf(move), detail);
  }
  if (fresh.siteId === siteId) {
    const detail = `${fresh.serial} is installed at this site already. Check both labels.`;
    throw new Problem("conflict", detail, { unitId: fresh.id });
  }
  await requireInstallable(tx, fresh, old.id);
  await requireAfterLastMove(tx, move.at, [old.id, fresh.id]);
  const { bankId, bankPosition } = old;
  const place = { siteId, bankId, bankPosition };
  await placeUnit(tx, old.id, { state: "swapped", ...NOWHERE });
  await placeUnit(tx, fresh.id, { state: "installed", ...place, replacesUnitId: old.id });
  await recordSwap(tx, move, { job, old, fresh, siteId });
  return { oldUnitId: old.id, newUnitId: fresh.id };
}

interface SwapRecord {
  job: MoveJob | undefined;
  old: UnitRow;
  fresh: UnitRow;
  siteId: string;
}

async function recordSwap(tx: FirmTransaction, move: Swap, record: SwapRecord): Promise<void> {
  const { job, old, fresh, siteId } = record;
  const { personId, at } = move;
  const shared = { siteId, personId, at, jobId: job?.id };
  const swapped = { ...shared, unitId: old.id, otherUnitId: fresh.id, note: move.reason };
  const oldEventId = await addUnitEvent(tx, { ...swapped, kind: "swapped" });
  const installed = { ...shared, unitId: fresh.id, otherUnitId: old.id };
  const newEventId = await addUnitEvent(tx, { ...installed, kind: "installed" });
  if (!job) return;
  await followSwapOnJob(tx, job.id, old.id, fresh.id);
  const body = {
    siteId,
    bankId: old.bankId,
    bankPosition: old.bankPosition,
    old: { unitId: old.id, serial: old.serial, modelId: old.modelId, eventId: oldEventId },
    new: { unitId: fresh.id, serial: fresh.serial, modelId: fresh.modelId, eventId: newEventId },
    swappedAt: at.toISOString(),
  };
  await appendToLedger(tx, job.id, { kind: "unit.swapped", body, at: move.now ?? at });
}

function siteOf(old: UnitRow): string {
  if (old.siteId !== null) return old.siteId;
  const what = old.state === "swapped" ? "was swapped out already" : "is not installed";
  throw new Problem("conflict", `${old.serial} ${what}. Read the unit's history.`, {
    state: old.state,
  });
}

/** The id of the unit that comes, received on the spot when nobody recorded its goods-in. */
async function incomingUnit(tx: FirmTransaction, move: Swap): Promise<string> {
  const old = await requireUnit(tx, move.unitId);
  if (move.newSerial === undefined) {
    const fresh = move.newUnitId === undefined ? undefined : await findUnit(tx, move.newUnitId);
    if (!fresh) throw invalid("/body/newUnitId", "There is no such unit in your firm.");
    if (fresh.id === old.id) throw invalid("/body/newUnitId", "is the unit that is swapped out");
    return fresh.id;
  }
  const pointers = { modelId: "/body/modelId", serial: "/body/newSerial" };
  const typed = { modelId: move.modelId ?? old.modelId, serial: move.newSerial };
  const serial = await serialByRule(tx, typed, pointers);
  const known = await findUnitBySerial(tx, typed.modelId, serial);
  if (known?.id === old.id) throw invalid("/body/newSerial", "is the unit that is swapped out");
  if (known) return known.id;
  const { personId, at } = move;
  return (await receiveUnit(tx, { ...typed, personId, at }, pointers)).unit.id;
}

const pointerOf = (move: Swap): string =>
  move.newSerial === undefined ? "/body/newUnitId" : "/body/newSerial";
