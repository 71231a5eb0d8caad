import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Held } from "../../domain/scheduling/qualified.ts";
import type { NewQualification, QualificationEdit } from "./schemas.ts";

export const WITH_NAMES = {
  person: { select: { id: true, name: true } },
  kind: { select: { id: true, name: true, warnDays: true } },
} as const;

export interface QualificationFilter {
  personId?: string;
  kindId?: string;
  endsBefore?: string;
  after?: string;
  most: number;
}

export async function listQualifications(tx: FirmTransaction, filter: QualificationFilter) {
  const { personId, kindId, endsBefore, after, most } = filter;
  return tx.qualification.findMany({
    where: {
      firmId: tx.firmId,
      ...(personId ? { personId } : {}),
      ...(kindId ? { kindId } : {}),
      ...(endsBefore ? { validTo: { lt: new Date(endsBefore) } } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: WITH_NAMES,
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function findQualification(tx: FirmTransaction, id: string) {
  return tx.qualification.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_NAMES,
  });
}

export type QualificationRow = NonNullable<Awaited<ReturnType<typeof findQualification>>>;

export async function addQualification(
  tx: FirmTransaction,
  { validFrom, validTo, ...fields }: NewQualification,
): Promise<string> {
  const { id } = await tx.qualification.create({
    data: {
      ...{ firmId: tx.firmId, id: uuidv7(), ...fields },
      validFrom: new Date(validFrom),
      validTo: validTo === null ? null : new Date(validTo),
    },
    select: { id: true },
  });
  return id;
}

/** False when the row has another version by now. */
export async function editQualification(
  tx: FirmTransaction,
  id: string,
  version: number,
  { validFrom, validTo, ...change }: QualificationEdit,
): Promise<boolean> {
  const { count } = await tx.qualification.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: {
      ...change,
      ...(validFrom === undefined ? {} : { validFrom: new Date(validFrom) }),
      ...(validTo === undefined ? {} : { validTo: validTo === null ? null : new Date(validTo) }),
      version: { increment: 1 },
    },
  });
  return count === 1;
}

/** False when it is not there. */
export async function removeQualification(tx: FirmTransaction, id: string): Promise<boolean> {
  const { count } = await tx.qualification.deleteMany({ where: { firmId: tx.firmId, id } });
  return count === 1;
}

/** As it was before it was removed; nothing happens where it is there again already. */
export async function putQualificationBack(
  tx: FirmTransaction,
  { id, validFrom, validTo, ...fields }: NewQualification & { id: string },
): Promise<void> {
  await tx.qualification.createMany({
    data: [
      {
        ...{ firmId: tx.firmId, id, ...fields, validFrom: new Date(validFrom) },
        validTo: validTo === null ? null : new Date(validTo),
      },
    ],
    skipDuplicates: true,
  });
}

/** What these people hold, over and to come as well. */
export async function heldBy(tx: FirmTransaction, personIds: readonly string[]): Promise<Held[]> {
  const rows = await tx.qualification.findMany({
    where: { firmId: tx.firmId, personId: { in: [...personIds] } },
    select: { personId: true, kindId: true, validFrom: true, validTo: true },
  });
  return rows.map(({ validFrom, validTo, ...row }) => ({
    ...row,
    validFrom: dayText(validFrom),
    validTo: validTo === null ? null : dayText(validTo),
  }));
}

export const dayText = (date: Date): string => date.toISOString().slice(0, 10);
