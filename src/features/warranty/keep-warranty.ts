import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { readFirm } from "../firms/store.ts";
import { appendToLedger } from "../ledger/store.ts";
import { findUnit } from "../units/store.ts";
import type { NewReading, NewRegistration } from "./schemas.ts";
import { addReading, putRegistration, removeRegistration } from "./store.ts";
import { jobOfUnit } from "./unit-job-store.ts";

export const dayOf = (text: string): Date => new Date(text);
export const dayText = (day: Date): string => day.toISOString().slice(0, 10);

export interface By {
  personId: string;
  now: Date;
}

export async function keepRegistration(
  tx: FirmTransaction,
  unitId: string,
  { registeredOn, reference, note }: NewRegistration,
  by: By,
): Promise<void> {
  await requireUnit(tx, unitId);
  await refuseFuture(tx, "registeredOn", registeredOn, by.now);
  const fields = { reference, note: note ?? null, createdById: by.personId };
  await putRegistration(tx, unitId, { ...fields, registeredOn: dayOf(registeredOn) });
  await noteOnLedger(tx, unitId, "warranty.registered", { registeredOn, reference }, by);
}

/** Takes back what was entered by a slip; the ledger keeps both. */
export async function takeRegistrationBack(
  tx: FirmTransaction,
  unitId: string,
  by: By,
): Promise<void> {
  await requireUnit(tx, unitId);
  if (!(await removeRegistration(tx, unitId))) throw notFound("registration");
  await noteOnLedger(tx, unitId, "warranty.registration-removed", {}, by);
}

/**
 * On the ledger of the job that installed the unit, or of the one that is named; a unit without a
 * job has no ledger.
 */
export async function noteOnLedger(
  tx: FirmTransaction,
  unitId: string,
  kind: string,
  facts: object,
  { personId, now }: By,
  ofJob?: string | null,
): Promise<void> {
  const jobId = ofJob ?? (await jobOfUnit(tx, unitId));
  if (!jobId) return;
  await appendToLedger(tx, jobId, { kind, body: { unitId, personId, ...facts }, at: now });
}

export async function keepReading(
  tx: FirmTransaction,
  unitId: string,
  { readOn, throughputKwh, temperature }: NewReading,
  by: By,
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
