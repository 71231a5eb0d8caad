import { type Delimiter, guessDelimiter } from "../../domain/tables/delimiter.ts";
import type { Encoding } from "../../domain/tables/encoding.ts";
import { shownCell } from "../../domain/tables/shown-cell.ts";
import { cutTo } from "../../web/form.ts";
import { type FilePlace, openImportFile } from "./import-folder.ts";
import { type CsvFormat, readCsv, UnreadableFile } from "./read-csv.ts";
import { COLUMNS_MOST, HEADER_MOST } from "./schemas.ts";

const BEGINNING_BYTES = 64 * 1024;
const SAMPLES = 5;
const SAMPLE_CELL_MOST = 80;

export interface Inspection {
  delimiter: Delimiter;
  headers: string[];
  samples: string[][];
}

/** The header and the first rows; throws UnreadableFile where there is no usable header. */
export async function inspectFile(
  place: FilePlace,
  encoding: Encoding,
  given?: Delimiter,
): Promise<Inspection> {
  const delimiter = given ?? guessDelimiter(await beginningOf(place, encoding));
  const format = { encoding, delimiter };
  const [header = []] = await firstRows(place, format, 1);
  const headers = headersOf(header);
  const rows = await firstRows(place, format, 1 + SAMPLES).catch(untold);
  const samples = rows.slice(1).map((cells) => cells.slice(0, COLUMNS_MOST).map(shortened));
  return { delimiter, headers, samples };
}

async function firstRows(
  place: FilePlace,
  format: CsvFormat,
  recordsMost: number,
): Promise<string[][]> {
  const rows: string[][] = [];
  for await (const { cells } of readCsv(openImportFile(place), { ...format, recordsMost })) {
    rows.push(cells);
  }
  return rows;
}

/** A fault below the header is told by the dry run, for which another delimiter can be chosen. */
function untold(error: unknown): string[][] {
  if (error instanceof UnreadableFile) return [];
  throw error;
}

const NO_TABLE =
  "The row with column names holds the character U+0000. Save the table as CSV and send that.";

/** The names in a header row, as they are compared and shown. */
export function headersOf(cells: readonly string[]): string[] {
  if (cells.some((cell) => cell.includes("\u0000"))) throw new UnreadableFile(NO_TABLE);
  const headers = cells.map((cell) => cell.trim().replaceAll(/\s+/g, " "));
  while (headers.at(-1) === "") headers.pop();
  if (headers.length === 0) throw new UnreadableFile("The file has no row with column names.");
  if (headers.length > COLUMNS_MOST) {
    throw new UnreadableFile(`The file has more than ${COLUMNS_MOST} columns.`);
  }
  const long = headers.findIndex((header) => header.length > HEADER_MOST);
  if (long < 0) return headers;
  throw new UnreadableFile(`The name of column ${long + 1} has more than ${HEADER_MOST} letters.`);
}

async function beginningOf(place: FilePlace, encoding: Encoding): Promise<string> {
  const decoder = new TextDecoder(encoding);
  let text = "";
  for await (const chunk of openImportFile(place, BEGINNING_BYTES)) {
    text += decoder.decode(chunk as Buffer, { stream: true });
  }
  return text;
}

function shortened(cell: string): string {
  const shown = shownCell(cell);
  return shown.length > SAMPLE_CELL_MOST ? `${cutTo(shown, SAMPLE_CELL_MOST)}…` : shown;
}
