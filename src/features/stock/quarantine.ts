// A unit that may be damaged is set apart, and only a manager says that it is sound after all. What
// is not goes back to the maker: it leaves stock and keeps its history.
import type { FirmTransaction } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { takeUnit } from "../units/move.ts";
import { addUnitEvent, NOWHERE, placeUnit } from "../units/move-store.ts";
import type { UnitRow } from "../units/store.ts";
import { setStock } from "./store.ts";

interface Act {
  unitId: string;
  reason: string;
  personId: string;
  at: Date;
}

export async function quarantine(tx: FirmTransaction, act: Act): Promise<void> {
  const unit = await takeStockUnit(tx, act.unitId);
  if (unit.quarantinedAt) {
    const since = unit.quarantinedAt.toISOString().slice(0, 10);
    throw new Problem("conflict", `${unit.serial} is in quarantine since ${since} already.`);
  }
  await setStock(tx, unit.id, { quarantinedAt: act.at });
  await addEvent(tx, act, "quarantined");
}

export async function release(tx: FirmTransaction, act: Act): Promise<void> {
  const unit = await takeStockUnit(tx, act.unitId);
  if (!unit.quarantinedAt) {
    throw new Problem("conflict", `${unit.serial} is not in quarantine. Read its history.`);
  }
  await setStock(tx, unit.id, { quarantinedAt: null });
  await addEvent(tx, act, "released");
}

export async function returnToMaker(tx: FirmTransaction, act: Act): Promise<void> {
  const unit = await takeStockUnit(tx, act.unitId);
  await setStock(tx, unit.id, { quarantinedAt: null });
  await placeUnit(tx, unit.id, { state: "removed", ...NOWHERE });
  await addEvent(tx, act, "removed");
}

export async function putInPlace(tx: FirmTransaction, unitId: string, place: string) {
  const unit = await takeStockUnit(tx, unitId);
  await setStock(tx, unit.id, { stockPlace: place });
}

async function takeStockUnit(tx: FirmTransaction, unitId: string): Promise<UnitRow> {
  const unit = await takeUnit(tx, unitId);
  if (unit.state === "received") return unit;
  const where = unit.siteReference ? `at ${unit.siteReference}` : unit.state;
  throw new Problem("conflict", `${unit.serial} is not in stock but ${where}. Check the label.`);
}

async function addEvent(
  tx: FirmTransaction,
  { unitId, reason, personId, at }: Act,
  kind: "quarantined" | "released" | "removed",
): Promise<void> {
  await addUnitEvent(tx, { unitId, kind, personId, at, note: reason });
}
