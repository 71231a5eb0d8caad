import type { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export const CHANGE_KINDS = ["customer", "site", "unit", "instrument", "person"] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

const WITH_NAMES = {
  person: { select: { id: true, name: true } },
  undoneBy: { select: { id: true }, take: 1 },
} as const;

const NEWEST_FIRST = [{ at: "desc" }, { id: "desc" }] as const;
const LATER_MOST = 20;

export async function isThere(tx: FirmTransaction, kind: ChangeKind, id: string): Promise<boolean> {
  const query = { where: { firmId_id: { firmId: tx.firmId, id } }, select: { id: true } } as const;
  const found = {
    customer: () => tx.customer.findUnique(query),
    site: () => tx.site.findUnique(query),
    unit: () => tx.unit.findUnique(query),
    instrument: () => tx.instrument.findUnique(query),
    person: () => tx.person.findUnique(query),
  } satisfies Record<ChangeKind, () => Promise<{ id: string } | null>>;
  return (await found[kind]()) !== null;
}

/** Changes of one thing, newest first. */
export async function listChanges(
  tx: FirmTransaction,
  { kind, subjectId, most }: { kind: ChangeKind; subjectId: string; most: number },
) {
  return tx.changeRecord.findMany({
    where: { firmId: tx.firmId, kind, subjectId },
    include: WITH_NAMES,
    orderBy: [...NEWEST_FIRST],
    take: most,
  });
}

export async function findChange(
  tx: FirmTransaction,
  { kind, subjectId, id }: { kind: ChangeKind; subjectId: string; id: string },
) {
  return tx.changeRecord.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id }, kind, subjectId },
    include: WITH_NAMES,
  });
}

export type ChangeRow = NonNullable<Awaited<ReturnType<typeof findChange>>>;

/** What was changed after this change, newest first. */
export async function changesAfter(
  tx: FirmTransaction,
  { subjectId, id }: { subjectId: string; id: string },
): Promise<ChangeRow[]> {
  // Asked of the database, which tells moments apart that are one to a Date.
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id FROM change_record WHERE firm_id = ${tx.firmId}::uuid
      AND subject_id = ${subjectId}::uuid AND at > (SELECT at FROM change_record
        WHERE firm_id = ${tx.firmId}::uuid AND id = ${id}::uuid)
    ORDER BY at DESC LIMIT ${LATER_MOST}::int`;
  return readChanges(tx, { id: { in: rows.map((row) => row.id) } });
}

/** What was changed since the thing had this version, newest first. */
export async function changesSince(
  tx: FirmTransaction,
  subjectId: string,
  version: number,
): Promise<ChangeRow[]> {
  return readChanges(tx, { subjectId, versionAfter: { gt: version } });
}

const readChanges = (tx: FirmTransaction, where: Prisma.ChangeRecordWhereInput) =>
  tx.changeRecord.findMany({
    where: { firmId: tx.firmId, ...where },
    include: WITH_NAMES,
    orderBy: [...NEWEST_FIRST],
    take: LATER_MOST,
  });

export async function lastChange(tx: FirmTransaction, subjectId: string) {
  return tx.changeRecord.findFirst({
    where: { firmId: tx.firmId, subjectId },
    include: WITH_NAMES,
    orderBy: [...NEWEST_FIRST],
  });
}

/** The change that is made next in this transaction takes this one back. */
export async function beginUndoing(tx: FirmTransaction, changeId: string): Promise<void> {
  await tx.$executeRaw`SELECT set_config('app.undoes_id', ${changeId}, true)`;
}

/** The version of the thing now, its row locked; undefined where there is none. */
export async function lockVersion(
  tx: FirmTransaction,
  kind: ChangeKind,
  id: string,
): Promise<number | undefined> {
  const [row] = await tx.$queryRawUnsafe<{ version: number }[]>(
    `SELECT version FROM ${kind} WHERE firm_id = $1::uuid AND id = $2::uuid FOR NO KEY UPDATE`,
    tx.firmId,
    id,
  );
  return row?.version;
}

/** The change that brought a thing to this version, where it was one that is kept. */
export async function changeThatMade(
  tx: FirmTransaction,
  subjectId: string,
  versionAfter: number,
): Promise<string | undefined> {
  const row = await tx.changeRecord.findFirst({
    where: { firmId: tx.firmId, subjectId, versionAfter },
    select: { id: true },
  });
  return row?.id;
}

/** References of customers, for changes that name one by its id. */
export async function customerReferences(
  tx: FirmTransaction,
  ids: string[],
): Promise<ReadonlyMap<string, string>> {
  if (ids.length === 0) return new Map();
  const rows = await tx.customer.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    select: { id: true, reference: true, name: true },
  });
  return new Map(rows.map(({ id, reference, name }) => [id, `${reference} ${name}`]));
}
