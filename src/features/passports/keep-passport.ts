import type { FirmTransaction } from "../../db/scope.ts";
import {
  PASSPORT_FIELD_NAMES,
  PASSPORT_FIELDS,
  type PassportField,
} from "../../domain/passport/fields.ts";
import { readPassportLink } from "../../domain/passport/link.ts";
import { invalid, notFound } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { todayOfFirm } from "../firms/today.ts";
import { findUnit } from "../units/store.ts";
import { type By, noteOnLedger } from "../warranty/keep-warranty.ts";
import type { BatteryPassport, PassportEdit, PassportValue } from "./schemas.ts";
import { findPassport, writePassport } from "./store.ts";

/** The unit's passport; an empty one of version 0 where none is kept. */
export async function readPassport(tx: FirmTransaction, unitId: string): Promise<BatteryPassport> {
  const unit = await findUnit(tx, unitId);
  if (!unit) throw notFound("unit");
  const row = await findPassport(tx, unitId);
  const link = row?.uri ? readPassportLink(row.uri, unit.serial) : undefined;
  const values = ((row?.entries ?? []) as unknown as PassportValue[]).map(({ field, ...entry }) => {
    const { point, unit: measured }: PassportField = PASSPORT_FIELDS[field];
    return { field, value: entry.value, unit: measured ?? null, point, readOn: entry.readOn };
  });
  return {
    ...{ unitId, uri: row?.uri ?? null, values },
    elements: link?.ok ? [...link.elements] : [],
    serial: link?.ok ? link.serial : "none",
    updatedAt: row?.updatedAt.toISOString() ?? null,
    version: row?.version ?? 0,
  };
}

/**
 * Replaces what is kept. The whole of it goes onto the ledger, out of which the bag of the job that
 * installed the unit states it.
 */
export async function keepPassport(
  tx: FirmTransaction,
  unitId: string,
  version: number,
  { uri, values }: PassportEdit,
  by: By,
): Promise<BatteryPassport> {
  const unit = await findUnit(tx, unitId);
  if (!unit) throw notFound("unit");
  const link = uri === null ? undefined : readPassportLink(uri, unit.serial);
  if (link && !link.ok) throw invalid("/body/uri", link.problem);
  const today = await todayOfFirm(tx, by.now);
  const early = values.findIndex(({ readOn }) => readOn > today);
  if (early >= 0) throw invalid(`/body/values/${early}/readOn`, "is in the future");
  const entries = values.toSorted((one, other) => placeOf(one) - placeOf(other));
  const fields = { uri, entries, updatedById: by.personId, updatedAt: by.now };
  if (!(await writePassport(tx, unitId, version, fields))) throw editedMeanwhile();
  await noteOnLedger(tx, unitId, "battery-passport.kept", { uri, values: entries }, by);
  return readPassport(tx, unitId);
}

const placeOf = ({ field }: PassportValue): number => PASSPORT_FIELD_NAMES.indexOf(field);
