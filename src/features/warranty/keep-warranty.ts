import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { levelKey } from "../../domain/firmware/level-key.ts";
import type { FirmwareScheme } from "../../domain/firmware/levels.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { readFirm } from "../firms/store.ts";
import { findProductModel } from "../product-models/store.ts";
import { findUnit } from "../units/store.ts";
import type { NewReading, NewRegistration, NewTerms } from "./schemas.ts";
import { addReading, addTerms, lastTerms, putRegistration, type TermsRow } from "./store.ts";

const VERSIONS_MOST = 200;
const dayOf = (text: string): Date => new Date(text);
export const dayText = (day: Date): string => day.toISOString().slice(0, 10);

/** A version is never changed; the next applies to units commissioned from a day on. */
export async function keepTerms(
  tx: FirmTransaction,
  modelId: string,
  terms: NewTerms,
  createdById: string,
): Promise<TermsRow> {
  const model = await findProductModel(tx, modelId);
  if (!model) throw notFound("product model");
  const last = await lastTerms(tx, modelId);
  if (last && terms.appliesFrom <= dayText(last.appliesFrom)) {
    const since = dayText(last.appliesFrom);
    const detail = `Version ${last.number} applies from ${since}: name a later day.`;
    throw invalid("/body/appliesFrom", detail);
  }
  const number = (last?.number ?? 0) + 1;
  if (number > VERSIONS_MOST) {
    throw new Problem("conflict", `A model takes at most ${VERSIONS_MOST} versions of its terms.`);
  }
  const { firmware, temperature, appliesFrom, ...fields } = terms;
  return addTerms(tx, modelId, number, {
    ...{ ...fields, appliesFrom: dayOf(appliesFrom), createdById },
    throughputKwh: fields.throughputKwh ?? null,
    registerWithinDays: fields.registerWithinDays ?? null,
    source: fields.source ?? null,
    firmwareLevel: firmware?.level ?? null,
    firmwareKey: firmware ? keyOrRefuse(model.firmwareScheme as FirmwareScheme, firmware) : null,
    firmwareWithinDays: firmware?.withinDays ?? null,
    temperatureLowest: temperature?.lowest ?? null,
    temperatureHighest: temperature?.highest ?? null,
  });
}

function keyOrRefuse(scheme: FirmwareScheme, { level }: { level: string }): bigint {
  const key = levelKey(scheme, level);
  if (key !== undefined) return key;
  const detail = `"${level}" has no place in the order of the model's levels (${scheme}).`;
  throw invalid("/body/firmware/level", detail);
}

export async function keepRegistration(
  tx: FirmTransaction,
  unitId: string,
  { registeredOn, reference, note }: NewRegistration,
  by: { personId: string; now: Date },
): Promise<void> {
  await requireUnit(tx, unitId);
  await refuseFuture(tx, "registeredOn", registeredOn, by.now);
  const fields = { reference, note: note ?? null, createdById: by.personId };
  await putRegistration(tx, unitId, { ...fields, registeredOn: dayOf(registeredOn) });
}

export async function keepReading(
  tx: FirmTransaction,
  unitId: string,
  { readOn, throughputKwh, temperature }: NewReading,
  by: { personId: string; now: Date },
) {
  await requireUnit(tx, unitId);
  await refuseFuture(tx, "readOn", readOn, by.now);
  const row = await addReading(tx, unitId, {
    readOn: dayOf(readOn),
    throughputKwh: throughputKwh ?? null,
    temperatureLowest: temperature?.lowest ?? null,
    temperatureHighest: temperature?.highest ?? null,
    createdById: by.personId,
  });
  if (!row) throw new Problem("conflict", `This unit has a reading of ${readOn} already.`);
  return row;
}

export async function requireUnit(tx: FirmTransaction, id: string): Promise<void> {
  if (!(await findUnit(tx, id))) throw notFound("unit");
}

async function refuseFuture(tx: FirmTransaction, field: string, day: string, now: Date) {
  const { timeZone } = await readFirm(tx);
  if (day > localDay(now.toISOString(), timeZone)) {
    throw invalid(`/body/${field}`, "is in the future");
  }
}
