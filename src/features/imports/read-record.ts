import { readCell } from "../../domain/tables/read-cell.ts";
import { shownCell } from "../../domain/tables/shown-cell.ts";
import type { ImportField, RowReading, Values } from "./kind.ts";
import { kindOf } from "./kinds.ts";
import type { CsvRecord } from "./read-csv.ts";
import type { StagedRow } from "./rows-store.ts";
import type { ImportRow } from "./store.ts";

export type ReadRecord = (record: CsvRecord) => StagedRow;

/** What makes a row of what a record's cells say, by the columns that somebody confirmed. */
export function recordReader(
  row: ImportRow,
  timeZone: string,
  readRow: (values: Values) => RowReading,
): ReadRecord {
  const headers = row.headers as string[];
  const columns = row.columns as (string | null)[];
  const byName = new Map(kindOf(row.kind).fields.map((field) => [field.name, field]));
  const fields = columns.map((name) => (name === null ? undefined : byName.get(name)));
  const constants = Object.entries(row.constants as Record<string, string>).flatMap(
    ([name, text]) => cellValue(byName.get(name), text, timeZone),
  );
  const headerOf = (name: string): string => headers[columns.indexOf(name)] ?? name;
  return ({ line, cells }) => {
    const shown = { line, cells: cells.map(shownCell) };
    const bad = (reason: string): StagedRow => ({
      ...shown,
      ...{ fields: null, naturalKey: null, outcome: "bad", reason: shownCell(reason) },
    });
    const beyond = cells.slice(headers.length).some((cell) => cell !== "");
    if (beyond || cells.length < headers.length) {
      return bad(`has ${cells.length} cells where the file has ${headers.length} columns`);
    }
    const values = Object.fromEntries([
      ...constants,
      ...fields.flatMap((field, index) => cellValue(field, cells[index] ?? "", timeZone)),
    ]);
    const read = readRow(values);
    if (!read.ok) return bad(`${headerOf(read.field)}: ${read.detail}`);
    const { fields: said, naturalKey } = read;
    return { ...shown, fields: said, naturalKey, outcome: null, reason: null };
  };
}

function cellValue(
  field: ImportField | undefined,
  cell: string,
  timeZone: string,
): [string, unknown][] {
  const value = field && readCell(field.cell, cell, timeZone);
  return field === undefined || value === undefined ? [] : [[field.name, value]];
}
