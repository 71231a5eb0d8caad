import type { FirmTransaction } from "../../db/scope.ts";
import type { CheckScheme } from "../../domain/identifiers/check-schemes.ts";
import { checkSerial } from "../../domain/identifiers/check-serial.ts";
import { type FieldError, invalid, Problem } from "../../errors.ts";
import { findProductModel } from "../product-models/store.ts";
import { requireUnit, takeUnit } from "./move.ts";
import { addUnitEvent, NOWHERE, placeUnit } from "./move-store.ts";
import { addUnitUnlessKnown, findUnitBySerial, type UnitRow } from "./store.ts";

export interface Receipt {
  modelId: string;
  serial: string;
  hardwareRevision?: string;
  note?: string;
  personId: string;
  at: Date;
}

/** Fields of the request that hold model and serial, for the pointers of a refusal. */
export interface ReceiptPointers {
  modelId: string;
  serial: string;
}

const POINTERS: ReceiptPointers = { modelId: "/body/modelId", serial: "/body/serial" };

/**
 * Goods-in: the unit is in stock from now on. A unit that had been removed or swapped out comes
 * back into stock with its history, as after a repair.
 */
export async function receiveUnit(
  tx: FirmTransaction,
  receipt: Receipt,
  pointers: ReceiptPointers = POINTERS,
): Promise<{ unit: UnitRow; isNew: boolean }> {
  const { modelId, personId, at, hardwareRevision, note } = receipt;
  const serial = await serialByRule(tx, receipt, pointers);
  const details = { ...(hardwareRevision ? { hardwareRevision } : {}), ...(note ? { note } : {}) };
  const addedId = await addUnitUnlessKnown(tx, { modelId, serial, ...details });
  const unitId = addedId ?? (await takeReturned(tx, modelId, serial));
  if (addedId === undefined) {
    await placeUnit(tx, unitId, { state: "received", ...NOWHERE, ...details });
  }
  await addUnitEvent(tx, { unitId, kind: "received", personId, at });
  return { unit: await requireUnit(tx, unitId), isNew: addedId !== undefined };
}

/** The serial as it is kept, if the model's rule takes it. */
export async function serialByRule(
  tx: FirmTransaction,
  typed: { modelId: string; serial: string },
  pointers: ReceiptPointers,
): Promise<string> {
  const model = await findProductModel(tx, typed.modelId);
  if (!model) throw invalid(pointers.modelId, "There is no such product model in your firm.");
  const rule = { mask: model.serialMask, check: model.serialCheck as CheckScheme };
  const checked = checkSerial(rule, typed.serial);
  if (checked.ok) return checked.serial;
  const errors: FieldError[] = [{ pointer: pointers.serial, detail: checked.problem }];
  const { suggestion } = checked;
  throw new Problem("invalid-input", checked.problem, {
    errors,
    ...(suggestion ? { suggestion } : {}),
  });
}

async function takeReturned(tx: FirmTransaction, modelId: string, serial: string): Promise<string> {
  const found = await findUnitBySerial(tx, modelId, serial);
  if (!found) throw new Error("a serial that was taken is not there");
  const unit = await takeUnit(tx, found.id);
  if (unit.state === "removed" || unit.state === "swapped") return unit.id;
  const where = unit.state === "installed" ? `installed at ${unit.siteReference}` : "in stock";
  const detail = `${serial} is ${where} already. Check the label against the unit.`;
  throw new Problem("conflict", detail, { unitId: unit.id });
}
