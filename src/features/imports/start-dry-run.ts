import type { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import type { Delimiter } from "../../domain/tables/delimiter.ts";
import type { Encoding } from "../../domain/tables/encoding.ts";
import { columnKey, matchColumns } from "../../domain/tables/match-columns.ts";
import { invalid } from "../../errors.ts";
import { move, type Place, readable, requireImport, requireState } from "./import-state.ts";
import { inspectFile } from "./inspect-file.ts";
import { kindOf } from "./kinds.ts";
import { requireColumns } from "./require-columns.ts";
import type { DryRun, ImportState } from "./schemas.ts";
import { type ImportRow, rememberColumn, rememberedColumns } from "./store.ts";

/** Lets the dry run begin, with the columns as somebody confirmed them. */
export async function startDryRun(
  { db, dataFolder, firmId }: Place,
  importId: string,
  wish: z.infer<typeof DryRun>,
  now: Date,
): Promise<ImportRow> {
  const states: readonly ImportState[] = ["uploaded", "checked", "failed"];
  const row = await inFirm(db, firmId, (tx) => requireImport(tx, importId));
  requireState(row, states);
  if (row.bytes === null) throw invalid("/body/columns", "Send the file first.");
  const format = {
    encoding: (wish.encoding ?? row.encoding) as Encoding,
    delimiter: (wish.delimiter ?? row.delimiter) as Delimiter,
  };
  const isSame = format.encoding === row.encoding && format.delimiter === row.delimiter;
  const file = { dataFolder, firmId, importId };
  const seen = isSame
    ? { headers: row.headers as string[], samples: row.samples as string[][] }
    : await readable(() => inspectFile(file, format.encoding, format.delimiter));
  return inFirm(db, firmId, async (tx) => {
    const columns = wish.columns ?? (await suggested(tx, row, isSame, seen.headers));
    requireColumns(row.kind, seen.headers, columns, wish.constants);
    await remember(tx, row.kind, seen.headers, columns, now);
    await move(tx, importId, states, {
      ...{ ...format, headers: seen.headers, samples: seen.samples, columns },
      ...{ constants: wish.constants, state: "checking", figures: {}, problem: null },
      ...{ progressDone: 0, progressTotal: row.bytes ?? 0n, attempts: 0, leaseUntil: null },
    });
    return requireImport(tx, importId);
  });
}

const suggested = async (
  tx: FirmTransaction,
  row: ImportRow,
  isSame: boolean,
  headers: string[],
) =>
  isSame
    ? (row.columns as (string | null)[])
    : matchColumns(headers, kindOf(row.kind).fields, await rememberedColumns(tx, row.kind));

async function remember(
  tx: FirmTransaction,
  kind: string,
  headers: readonly string[],
  columns: readonly (string | null)[],
  now: Date,
): Promise<void> {
  for (const [index, field] of columns.entries()) {
    const header = columnKey(headers[index] ?? "");
    if (field !== null && header !== "") await rememberColumn(tx, { kind, header, field }, now);
  }
}
