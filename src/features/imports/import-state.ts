import type { Database } from "../../db/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { UnreadableFile } from "./read-csv.ts";
import type { ImportState } from "./schemas.ts";
import { findImport, type ImportRow, moveImport } from "./store.ts";

export interface Place {
  db: Database;
  dataFolder: string;
  firmId: string;
}

export const NOT_RUNNING: readonly ImportState[] = ["waiting", "uploaded", "checked", "failed"];

export async function requireImport(tx: FirmTransaction, id: string): Promise<ImportRow> {
  const row = await findImport(tx, id);
  if (!row) throw notFound("import");
  return row;
}

export function requireState(row: ImportRow, states: readonly ImportState[]): void {
  if (states.includes(row.state as ImportState)) return;
  throw new Problem(
    "conflict",
    `The import is ${row.state}; for this it has to be ${states.at(0)}.`,
  );
}

export async function move(
  tx: FirmTransaction,
  id: string,
  from: readonly ImportState[],
  change: Parameters<typeof moveImport>[3],
): Promise<void> {
  if (await moveImport(tx, id, from, change)) return;
  throw new Problem("conflict", "The import went on meanwhile. Look how it stands now.");
}

/** What the file itself gives no way to do is told as the input's fault. */
export async function readable<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof UnreadableFile) throw invalid("/body", error.message);
    throw error;
  }
}
