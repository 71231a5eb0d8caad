import type { FirmTransaction } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { findMergeable, type MergeKind } from "./store.ts";

/** What became part of another record is only found by its old reference any more. */
export async function refuseMerged(
  tx: FirmTransaction,
  kind: MergeKind,
  row: { reference: string; mergedIntoId: string | null },
): Promise<void> {
  if (row.mergedIntoId === null) return;
  const into = await findMergeable(tx, kind, row.mergedIntoId);
  throw new Problem(
    "conflict",
    `${row.reference} was merged into ${into?.reference}. Edit that one, or undo the merge first.`,
    { mergedIntoId: row.mergedIntoId },
  );
}
