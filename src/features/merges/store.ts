import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export const MERGE_KINDS = ["customer", "site"] as const;
export type MergeKind = (typeof MERGE_KINDS)[number];

/** What both kinds of record have that can be merged. */
export interface Mergeable {
  id: string;
  reference: string;
  version: number;
  archivedAt: Date | null;
  mergedIntoId: string | null;
}

const keyOf = (tx: FirmTransaction, id: string) => ({ firmId_id: { firmId: tx.firmId, id } });

export async function findMergeable(tx: FirmTransaction, kind: MergeKind, id: string) {
  return kind === "customer"
    ? tx.customer.findUnique({ where: keyOf(tx, id) })
    : tx.site.findUnique({ where: keyOf(tx, id) });
}

/** Both rows, locked in the same order by whoever merges, undoes or edits. */
export async function lockPair(
  tx: FirmTransaction,
  kind: MergeKind,
  ids: readonly string[],
): Promise<void> {
  const sorted = [...ids].sort();
  if (kind === "customer") {
    await tx.$queryRaw`SELECT id FROM customer WHERE firm_id = ${tx.firmId}::uuid
      AND id = ANY(${sorted}::uuid[]) ORDER BY id FOR UPDATE`;
  } else {
    await tx.$queryRaw`SELECT id FROM site WHERE firm_id = ${tx.firmId}::uuid
      AND id = ANY(${sorted}::uuid[]) ORDER BY id FOR UPDATE`;
  }
}

/** While it stands, the database lets rows move between the two and keeps no changes of its own. */
export async function beginMoving(tx: FirmTransaction, mergeId: string): Promise<void> {
  await tx.$executeRaw`SELECT set_config('app.merge_id', ${mergeId}, true)`;
}

export async function endMoving(tx: FirmTransaction): Promise<void> {
  await tx.$executeRaw`SELECT set_config('app.merge_id', '', true)`;
}

export interface MovedPart {
  table: string;
  column: string;
  rows: { key: string; version: number | null }[];
}

export interface Move {
  kind: MergeKind;
  fromId: string;
  intoId: string;
  /** Tables whose rows stay where they are. */
  leave?: readonly string[];
  /** Of what points there, these rows alone. */
  only?: readonly MovedPart[];
}

export async function moveReferences(tx: FirmTransaction, move: Move): Promise<MovedPart[]> {
  const { kind, fromId, intoId, leave = [], only } = move;
  const list = only === undefined ? null : JSON.stringify(only);
  const [row] = await tx.$queryRaw<{ moved: MovedPart[] }[]>`
    SELECT move_references(${kind}::regclass, ${tx.firmId}::uuid, ${fromId}::uuid,
      ${intoId}::uuid, ${[...leave]}::text[], ${list}::jsonb) AS moved`;
  return row?.moved ?? [];
}

/** By table how many of the moved rows have been changed, or moved on, since. */
export async function changedSince(
  tx: FirmTransaction,
  intoId: string,
  moved: readonly MovedPart[],
): Promise<{ name: string; changed: number }[]> {
  return tx.$queryRaw`SELECT name, changed FROM changed_since_merge(${tx.firmId}::uuid,
    ${intoId}::uuid, ${JSON.stringify(moved)}::jsonb)`;
}

export interface NewMerge {
  kind: MergeKind;
  fromId: string;
  intoId: string;
  personId: string;
  wasArchivedAt: Date | null;
}

export async function addMerge(tx: FirmTransaction, merge: NewMerge, now: Date): Promise<string> {
  const id = uuidv7();
  await tx.recordMerge.create({ data: { firmId: tx.firmId, id, createdAt: now, ...merge } });
  return id;
}

export interface MergeOutcome {
  moved: MovedPart[];
  filled: Record<string, string>;
  fromVersion: number;
  intoVersion: number;
}

export async function keepOutcome(tx: FirmTransaction, id: string, outcome: MergeOutcome) {
  return tx.recordMerge.update({
    where: keyOf(tx, id),
    data: { ...outcome, moved: outcome.moved as object[] },
    include: WITH_NAMES,
  });
}

const WITH_NAMES = {
  person: { select: { name: true } },
  undoneBy: { select: { name: true } },
} as const;

export async function findMerge(tx: FirmTransaction, id: string) {
  return tx.recordMerge.findUnique({ where: keyOf(tx, id), include: WITH_NAMES });
}

export type MergeRow = NonNullable<Awaited<ReturnType<typeof findMerge>>>;

export async function markUndone(
  tx: FirmTransaction,
  id: string,
  undone: { undoneAt: Date; undoneById: string },
) {
  return tx.recordMerge.update({ where: keyOf(tx, id), data: undone, include: WITH_NAMES });
}

/** Merges that this record took part in, newest first. */
export async function listMerges(tx: FirmTransaction, id: string, most: number) {
  return tx.recordMerge.findMany({
    where: { firmId: tx.firmId, OR: [{ fromId: id }, { intoId: id }] },
    include: WITH_NAMES,
    orderBy: { id: "desc" },
    take: most,
  });
}

export async function mergedReferences(
  tx: FirmTransaction,
  kind: MergeKind,
  ids: string[],
): Promise<ReadonlyMap<string, string>> {
  if (ids.length === 0) return new Map();
  const query = {
    where: { firmId: tx.firmId, id: { in: ids } },
    select: { id: true, reference: true },
  };
  const rows =
    kind === "customer" ? await tx.customer.findMany(query) : await tx.site.findMany(query);
  return new Map(rows.map(({ id, reference }) => [id, reference]));
}
