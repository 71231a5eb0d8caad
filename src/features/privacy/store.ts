import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { RetentionKind } from "./schemas.ts";

/** What an erasure met. */
export interface Erased {
  customers: number;
  sites: number;
  /** Ids of the jobs whose records stay. */
  jobs: string[];
  /** Ids of the mails that were emptied. */
  mails: string[];
}

/** Takes away what is held about an archived customer; the database refuses any other. */
export async function eraseCustomer(tx: FirmTransaction, id: string): Promise<Erased> {
  const [row] = await tx.$queryRaw<{ counts: Erased }[]>`
    SELECT erase_customer(${id}::uuid) AS counts`;
  if (!row) throw new Error("erase_customer answered nothing");
  return row.counts;
}

export interface ErasureRow {
  customerId: string;
  reason: string;
  counts: Erased;
  personId: string;
}

export async function addErasure(tx: FirmTransaction, row: ErasureRow, now: Date) {
  const { jobs, mails } = row.counts;
  const counts = { ...row.counts, jobs: jobs.length, mails: mails.length };
  return tx.erasure.create({
    data: { ...row, counts, firmId: tx.firmId, id: uuidv7(), erasedAt: now },
    include: WITH_NAMES,
  });
}

const WITH_NAMES = {
  customer: { select: { reference: true } },
  person: { select: { name: true } },
} as const;

export async function findErasure(tx: FirmTransaction, customerId: string) {
  return tx.erasure.findUnique({
    where: { firmId_customerId: { firmId: tx.firmId, customerId } },
    include: WITH_NAMES,
  });
}

/** The latest first. */
export async function listErasures(
  tx: FirmTransaction,
  { after, most }: { after?: string; most: number },
) {
  return tx.erasure.findMany({
    where: { firmId: tx.firmId, ...(after ? { id: { lt: after } } : {}) },
    include: WITH_NAMES,
    orderBy: { id: "desc" },
    take: most,
  });
}

/** Customers that were archived before the moment and are not erased, the longest ago first. */
export async function listArchivedBefore(tx: FirmTransaction, moment: Date, most: number) {
  return tx.customer.findMany({
    where: { firmId: tx.firmId, archivedAt: { lt: moment }, erasure: null, mergedIntoId: null },
    select: { id: true, reference: true, name: true, archivedAt: true },
    orderBy: { archivedAt: "asc" },
    take: most,
  });
}

export async function readRetention(
  tx: FirmTransaction,
): Promise<Partial<Record<RetentionKind, number>>> {
  const rows = await tx.retentionPeriod.findMany({ where: { firmId: tx.firmId } });
  return Object.fromEntries(rows.map(({ kind, months }) => [kind, months]));
}

export async function putRetention(
  tx: FirmTransaction,
  periods: Readonly<Record<RetentionKind, number | null>>,
): Promise<void> {
  const { firmId } = tx;
  await tx.retentionPeriod.deleteMany({ where: { firmId } });
  await tx.retentionPeriod.createMany({
    data: Object.entries(periods).flatMap(([kind, months]) =>
      months === null ? [] : [{ firmId, kind, months }],
    ),
  });
}

/** At most a batch of what came before the moment; the ids of what was forgotten. */
export async function forgetOld(
  tx: FirmTransaction,
  kind: RetentionKind,
  before: Date,
  most: number,
): Promise<string[]> {
  const [row] = await tx.$queryRaw<{ ids: string[] }[]>`
    SELECT forget_old(${kind}, ${before}, ${most}::int) AS ids`;
  return row?.ids ?? [];
}
