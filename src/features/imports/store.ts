import { uuidv7 } from "uuidv7";
import type { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Figures, ImportKindName, ImportState } from "./schemas.ts";

const WITH_PERSON = { person: { select: { name: true } } } as const;

export async function addImport(
  tx: FirmTransaction,
  fields: { kind: ImportKindName; fileName: string; personId: string },
  now: Date,
) {
  return tx.csvImport.create({
    data: { firmId: tx.firmId, id: uuidv7(), createdAt: now, ...fields },
    include: WITH_PERSON,
  });
}

export async function findImport(tx: FirmTransaction, id: string) {
  return tx.csvImport.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_PERSON,
  });
}

export type ImportRow = NonNullable<Awaited<ReturnType<typeof findImport>>>;

export interface ImportFilter {
  kind?: string;
  state?: string;
  before?: string | undefined;
  most: number;
}

/** The latest first. */
export async function listImports(tx: FirmTransaction, filter: ImportFilter) {
  const { kind, state, before, most } = filter;
  return tx.csvImport.findMany({
    where: {
      firmId: tx.firmId,
      ...(kind ? { kind } : {}),
      ...(state ? { state } : {}),
      ...(before ? { id: { lt: before } } : {}),
    },
    include: WITH_PERSON,
    orderBy: { id: "desc" },
    take: most,
  });
}

export async function importsById(tx: FirmTransaction, ids: string[]) {
  return tx.csvImport.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: WITH_PERSON,
    take: ids.length,
  });
}

export type ImportChange = Omit<Prisma.CsvImportUncheckedUpdateManyInput, "firmId" | "id"> & {
  state?: ImportState;
};

/** False when it is in none of these states any more. */
export async function moveImport(
  tx: FirmTransaction,
  id: string,
  from: readonly ImportState[],
  change: ImportChange,
): Promise<boolean> {
  const { count } = await tx.csvImport.updateMany({
    where: { firmId: tx.firmId, id, state: { in: [...from] } },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

export interface Lease {
  importId: string;
  workerId: string;
}

/**
 * Takes what waits to be worked on for one worker; undefined when nothing does, or one is at it.
 */
export async function claimImport(
  tx: FirmTransaction,
  lease: Lease,
  now: Date,
  until: Date,
): Promise<ImportRow | undefined> {
  const { count } = await tx.csvImport.updateMany({
    where: {
      ...{ firmId: tx.firmId, id: lease.importId, state: { in: ["checking", "importing"] } },
      OR: [{ leaseUntil: null }, { leaseUntil: { lt: now } }],
    },
    data: { workerId: lease.workerId, leaseUntil: until, attempts: { increment: 1 } },
  });
  return count === 1 ? ((await findImport(tx, lease.importId)) ?? undefined) : undefined;
}

/** False when the worker lost it: it was cancelled, or another took it over. */
export async function beat(
  tx: FirmTransaction,
  lease: Lease,
  change: { done?: number; total?: number; until: Date },
): Promise<boolean> {
  const { done, total, until } = change;
  const { count } = await tx.csvImport.updateMany({
    where: heldBy(tx, lease),
    data: {
      leaseUntil: until,
      ...(done === undefined ? {} : { progressDone: done }),
      ...(total === undefined ? {} : { progressTotal: total }),
    },
  });
  return count === 1;
}

/** The worker's last word; false when it lost the import before. */
export async function finishImport(
  tx: FirmTransaction,
  lease: Lease,
  change: ImportChange & { figures?: Figures },
): Promise<boolean> {
  const { count } = await tx.csvImport.updateMany({
    where: heldBy(tx, lease),
    data: { ...change, workerId: null, leaseUntil: null, version: { increment: 1 } },
  });
  return count === 1;
}

const heldBy = (tx: FirmTransaction, { importId, workerId }: Lease) => ({
  ...{ firmId: tx.firmId, id: importId, workerId },
  state: { in: ["checking", "importing"] },
});

/** What nobody works on although it waits for it. */
export async function waitingImports(tx: FirmTransaction, now: Date): Promise<string[]> {
  const rows = await tx.csvImport.findMany({
    where: {
      ...{ firmId: tx.firmId, state: { in: ["checking", "importing"] } },
      OR: [{ leaseUntil: null }, { leaseUntil: { lt: now } }],
    },
    select: { id: true },
    orderBy: { id: "asc" },
    take: WAITING_MOST,
  });
  return rows.map(({ id }) => id);
}

const WAITING_MOST = 20;

/** Over for so long that its rows and its file can go. */
export async function staleImports(tx: FirmTransaction, before: Date): Promise<string[]> {
  const rows = await tx.csvImport.findMany({
    where: {
      ...{ firmId: tx.firmId, purgedAt: null, createdAt: { lt: before } },
      state: { notIn: ["checking", "importing"] },
    },
    select: { id: true },
    take: STALE_MOST,
  });
  return rows.map(({ id }) => id);
}

const STALE_MOST = 500;

/** False when it runs, or was marked before. */
export async function markPurged(tx: FirmTransaction, id: string, now: Date): Promise<boolean> {
  const { count } = await tx.csvImport.updateMany({
    where: {
      ...{ firmId: tx.firmId, id, purgedAt: null },
      state: { notIn: ["checking", "importing"] },
    },
    data: { purgedAt: now },
  });
  return count === 1;
}

export async function rememberedColumns(
  tx: FirmTransaction,
  kind: string,
): Promise<ReadonlyMap<string, string>> {
  const rows = await tx.csvImportColumn.findMany({ where: { firmId: tx.firmId, kind } });
  return new Map(rows.map(({ header, field }) => [header, field]));
}

export async function rememberColumn(
  tx: FirmTransaction,
  row: { kind: string; header: string; field: string },
  now: Date,
): Promise<void> {
  const { kind, header, field } = row;
  await tx.csvImportColumn.upsert({
    where: { firmId_kind_header: { firmId: tx.firmId, kind, header } },
    create: { firmId: tx.firmId, ...row, updatedAt: now },
    update: { field, updatedAt: now },
  });
}
