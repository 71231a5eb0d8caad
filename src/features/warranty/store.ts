import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

interface TermsFields {
  appliesFrom: Date;
  years: number;
  throughputKwh: number | null;
  registerWithinDays: number | null;
  evidenceNeeded: boolean;
  firmwareLevel: string | null;
  firmwareKey: bigint | null;
  firmwareWithinDays: number | null;
  temperatureLowest: number | null;
  temperatureHighest: number | null;
  endMovesToWorkingDay: boolean;
  source: string | null;
  createdById: string;
  createdAt: Date;
}

/** The model's row stays locked, so that two versions at once get two numbers. */
export async function lastTerms(tx: FirmTransaction, modelId: string) {
  await tx.$queryRaw`SELECT 1 FROM product_model
    WHERE firm_id = ${tx.firmId}::uuid AND id = ${modelId}::uuid FOR UPDATE`;
  return tx.warrantyTerms.findFirst({
    where: { firmId: tx.firmId, modelId },
    orderBy: { number: "desc" },
  });
}

export async function addTerms(
  tx: FirmTransaction,
  modelId: string,
  number: number,
  fields: TermsFields,
) {
  return tx.warrantyTerms.create({
    data: { firmId: tx.firmId, id: uuidv7(), modelId, number, ...fields },
  });
}

export type TermsRow = Awaited<ReturnType<typeof addTerms>>;

/** The latest version first. */
export async function listTerms(
  tx: FirmTransaction,
  modelId: string,
  page: { before?: string | undefined; most: number },
): Promise<TermsRow[]> {
  return tx.warrantyTerms.findMany({
    where: { firmId: tx.firmId, modelId, ...(page.before ? { id: { lt: page.before } } : {}) },
    orderBy: { id: "desc" },
    take: page.most,
  });
}

export async function removeTerms(tx: FirmTransaction, id: string): Promise<void> {
  await tx.warrantyTerms.delete({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** Whether a claim was opened for a unit of the model from this moment on. */
export async function claimedSince(tx: FirmTransaction, modelId: string, from: Date) {
  const { firmId } = tx;
  const where = { firmId, createdAt: { gte: from }, unit: { modelId } };
  return (await tx.warrantyClaim.findFirst({ where, select: { id: true } })) !== null;
}

export async function readTerms(tx: FirmTransaction, ids: string[]): Promise<TermsRow[]> {
  return tx.warrantyTerms.findMany({ where: { firmId: tx.firmId, id: { in: ids } } });
}

export interface RegistrationFields {
  registeredOn: Date;
  reference: string;
  note: string | null;
  createdById: string;
}

export async function putRegistration(
  tx: FirmTransaction,
  unitId: string,
  fields: RegistrationFields,
) {
  return tx.warrantyRegistration.upsert({
    where: { firmId_unitId: { firmId: tx.firmId, unitId } },
    create: { firmId: tx.firmId, unitId, ...fields },
    update: fields,
  });
}

/** False where the unit has none. */
export async function removeRegistration(tx: FirmTransaction, unitId: string): Promise<boolean> {
  const { count } = await tx.warrantyRegistration.deleteMany({
    where: { firmId: tx.firmId, unitId },
  });
  return count === 1;
}

export interface ReadingFields {
  readOn: Date;
  throughputKwh: number | null;
  temperatureLowest: number | null;
  temperatureHighest: number | null;
  createdById: string;
}

/** Undefined when the unit was read on that day already. */
export async function addReading(tx: FirmTransaction, unitId: string, fields: ReadingFields) {
  const [row] = await tx.warrantyReading.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), unitId, ...fields }],
    skipDuplicates: true,
  });
  return row;
}

export type ReadingRow = NonNullable<Awaited<ReturnType<typeof addReading>>>;

/** False where the unit has no such reading. */
export async function removeReading(tx: FirmTransaction, unitId: string, id: string) {
  const where = { firmId: tx.firmId, unitId, id };
  return (await tx.warrantyReading.deleteMany({ where })).count === 1;
}

/** In the order of entry, the latest first. */
export async function listReadings(
  tx: FirmTransaction,
  unitId: string,
  page: { before?: string | undefined; most: number },
): Promise<ReadingRow[]> {
  return tx.warrantyReading.findMany({
    where: { firmId: tx.firmId, unitId, ...(page.before ? { id: { lt: page.before } } : {}) },
    orderBy: { id: "desc" },
    take: page.most,
  });
}
