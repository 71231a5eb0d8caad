import type { FirmTransaction } from "./scope.ts";

export type ReferenceKind = "C" | "S" | "J" | "R";

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
  return `${kind}-${year}-${String(row?.last).padStart(4, "0")}`;
}
