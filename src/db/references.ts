import type { FirmTransaction } from "./scope.ts";

export type ReferenceKind = "A" | "C" | "S" | "J" | "N" | "R" | "W";

/**
 * The next spoken reference of its kind and year: J-2026-0142. Gaps appear when a transaction is
 * undone.
 */
export async function nextReference(
  tx: FirmTransaction,
  kind: ReferenceKind,
  now: Date,
): Promise<string> {
  const year = now.getUTCFullYear();
  const [row] = await tx.$queryRaw<{ last: number }[]>`
    INSERT INTO reference_counter AS c (firm_id, kind, year, last)
    VALUES (${tx.firmId}::uuid, ${kind}, ${year}, 1)
    ON CONFLICT (firm_id, kind, year) DO UPDATE SET last = c.last + 1
    RETURNING last`;
  return spoken(kind, year, Number(row?.last));
}

/** So many references at once, in their order. */
export async function nextReferences(
  tx: FirmTransaction,
  kind: ReferenceKind,
  count: number,
  now: Date,
): Promise<string[]> {
  if (count === 0) return [];
  const year = now.getUTCFullYear();
  const [row] = await tx.$queryRaw<{ last: number }[]>`
    INSERT INTO reference_counter AS c (firm_id, kind, year, last)
    VALUES (${tx.firmId}::uuid, ${kind}, ${year}, ${count})
    ON CONFLICT (firm_id, kind, year) DO UPDATE SET last = c.last + ${count}
    RETURNING last`;
  const first = Number(row?.last) - count + 1;
  return Array.from({ length: count }, (_, index) => spoken(kind, year, first + index));
}

const spoken = (kind: ReferenceKind, year: number, number: number): string =>
  `${kind}-${year}-${String(number).padStart(4, "0")}`;
