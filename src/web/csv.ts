// The one place that writes CSV: RFC 4180 with a header row, in UTF-8, cells that a spreadsheet
// would run as a formula defused.
import { stringify } from "csv-stringify/sync";
import { defuseCell } from "../domain/tables/formula-cells.ts";

export type CsvCell = string | number | boolean | null | undefined;

/** A byte-order mark tells spreadsheets that the file is UTF-8. */
export const CSV_MARK = "\ufeff";
export const CSV_TYPE = "text/csv; charset=utf-8";

/** Each row as a line of its own; numbers stay numbers, empty cells empty. */
export const csvLines = (rows: readonly (readonly CsvCell[])[]): string =>
  stringify(
    rows.map((row) => row.map(cellOf)),
    { record_delimiter: "\r\n" },
  );

function cellOf(cell: CsvCell): string {
  if (typeof cell === "string") return defuseCell(cell);
  return cell === null || cell === undefined ? "" : String(cell);
}
