import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface AbsenceFields {
  startsAt: Date;
  endsAt: Date;
  reason: string;
  note: string | null;
}

const WITH_PERSON = { person: { select: { id: true, name: true } } } as const;

export async function listAbsences(
  tx: FirmTransaction,
  filter: { personId?: string; from?: Date; to?: Date; after?: string; most: number },
) {
  const { personId, from, to, after, most } = filter;
  return tx.absence.findMany({
    where: {
      firmId: tx.firmId,
      ...(personId ? { personId } : {}),
      ...(from ? { endsAt: { gt: from } } : {}),
      ...(to ? { startsAt: { lt: to } } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: WITH_PERSON,
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function findAbsence(tx: FirmTransaction, id: string) {
  return tx.absence.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_PERSON,
  });
}

export type AbsenceRow = NonNullable<Awaited<ReturnType<typeof findAbsence>>>;

/** The person, locked as a booking locks them; undefined where there is none. */
export async function lockPerson(
  tx: FirmTransaction,
  id: string,
): Promise<{ id: string; name: string } | undefined> {
  const [row] = await tx.$queryRaw<{ id: string; name: string }[]>`
    SELECT id, name FROM person WHERE firm_id = ${tx.firmId}::uuid AND id = ${id}::uuid
    FOR NO KEY UPDATE`;
  return row;
}

export async function addAbsence(
  tx: FirmTransaction,
  personId: string,
  fields: AbsenceFields,
): Promise<string> {
  const { id } = await tx.absence.create({
    data: { firmId: tx.firmId, id: uuidv7(), personId, ...fields },
    select: { id: true },
  });
  return id;
}

/** False when the row has another version by now. */
export async function editAbsence(
  tx: FirmTransaction,
  id: string,
  version: number,
  fields: AbsenceFields,
): Promise<boolean> {
  const { count } = await tx.absence.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...fields, version: { increment: 1 } },
  });
  return count === 1;
}

/** False when it is not there. */
export async function removeAbsence(tx: FirmTransaction, id: string): Promise<boolean> {
  const { count } = await tx.absence.deleteMany({ where: { firmId: tx.firmId, id } });
  return count === 1;
}

/** The absence as it was before it was removed; nothing happens where it is there again already. */
export async function putAbsenceBack(
  tx: FirmTransaction,
  { id, personId, ...fields }: AbsenceFields & { id: string; personId: string },
): Promise<void> {
  await tx.absence.createMany({
    data: [{ firmId: tx.firmId, id, personId, ...fields }],
    skipDuplicates: true,
  });
}

const ABSENCES_MOST = 2000;

/** Absences of these people, or of everybody, that have a moment between the two in common. */
export async function absencesDuring(
  tx: FirmTransaction,
  span: { startsAt: Date; endsAt: Date },
  personIds?: readonly string[],
  exceptId?: string,
): Promise<AbsenceRow[]> {
  return tx.absence.findMany({
    where: {
      firmId: tx.firmId,
      ...(personIds ? { personId: { in: [...personIds] } } : {}),
      ...(exceptId ? { id: { not: exceptId } } : {}),
      ...{ startsAt: { lt: span.endsAt }, endsAt: { gt: span.startsAt } },
    },
    include: WITH_PERSON,
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: ABSENCES_MOST,
  });
}

/** By visit, the job that it is for. */
export async function jobsOfVisits(
  tx: FirmTransaction,
  visitIds: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const rows = await tx.visit.findMany({
    where: { firmId: tx.firmId, id: { in: [...visitIds] } },
    select: { id: true, jobId: true },
  });
  return new Map(rows.map(({ id, jobId }) => [id, jobId]));
}
