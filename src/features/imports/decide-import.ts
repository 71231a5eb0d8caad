import type { FirmTransaction } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { move, NOT_RUNNING, requireImport, requireState } from "./import-state.ts";
import type { ImportState } from "./schemas.ts";
import type { ImportRow } from "./store.ts";

/** The word to go, for what the dry run found good. */
export async function confirmImport(
  tx: FirmTransaction,
  importId: string,
  badRows: "refuse" | "leave",
): Promise<ImportRow> {
  const row = await requireImport(tx, importId);
  requireState(row, ["checked"]);
  const figures = row.figures as { bad?: number; new?: number; changed?: number };
  if (badRows === "refuse" && (figures.bad ?? 0) > 0) {
    const count = figures.bad === 1 ? "One row is bad" : `${figures.bad} rows are bad`;
    const wayOut = "Mend them and send the file again, or import the good rows alone.";
    throw new Problem("conflict", `${count}: nothing is imported. ${wayOut}`, { figures });
  }
  const total = (figures.new ?? 0) + (figures.changed ?? 0);
  await move(tx, importId, ["checked"], {
    ...{ state: "importing", badRows, problem: null },
    ...{ progressDone: 0, progressTotal: total, attempts: 0, leaseUntil: null },
  });
  return requireImport(tx, importId);
}

const BEFORE_ITS_END: readonly ImportState[] = [...NOT_RUNNING, "checking", "importing"];

/** Nothing of it stays; one that is done is done. */
export async function cancelImport(
  tx: FirmTransaction,
  importId: string,
  now: Date,
): Promise<ImportRow> {
  const row = await requireImport(tx, importId);
  requireState(row, BEFORE_ITS_END);
  await move(tx, importId, BEFORE_ITS_END, { state: "cancelled", finishedAt: now });
  return requireImport(tx, importId);
}
