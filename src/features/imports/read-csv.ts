// The one place that reads CSV (RFC 4180), a record at a time: decoded, taken apart, each with the
// line on which it begins.
import { pipeline, Transform } from "node:stream";
import { CsvError, parse } from "csv-parse";
import type { Delimiter } from "../../domain/tables/delimiter.ts";
import type { Encoding } from "../../domain/tables/encoding.ts";
import { plainCell } from "../../domain/tables/formula-cells.ts";
import { RECORD_BYTES_MOST } from "./schemas.ts";

export interface CsvRecord {
  /** The first line is 1. */
  line: number;
  cells: string[];
}

export interface CsvFormat {
  encoding: Encoding;
  delimiter: Delimiter;
  /** The first records alone; what is wrong behind them is not looked at. */
  recordsMost?: number;
}

/** The file cannot be taken apart at all; the sentence says where and why. */
export class UnreadableFile extends Error {}

/** Records that are not empty; throws UnreadableFile where a quote or the encoding is wrong. */
export async function* readCsv(
  source: AsyncIterable<Uint8Array>,
  { encoding, delimiter, recordsMost }: CsvFormat,
): AsyncGenerator<CsvRecord> {
  const parser = parse({
    delimiter,
    info: true,
    relax_column_count: true,
    max_record_size: RECORD_BYTES_MOST,
    ...(recordsMost === undefined ? {} : { to: recordsMost }),
  });
  const piped = pipeline(source, decoding(encoding), parser, () => undefined);
  let last = 0;
  try {
    for await (const { info, record } of piped as AsyncIterable<Parsed>) {
      const line = last + 1;
      last = info.lines;
      if (record.length > 1 || record[0] !== "") yield { line, cells: record.map(plainCell) };
    }
  } catch (error) {
    throw error instanceof CsvError ? new UnreadableFile(sentenceOf(error, last + 1)) : error;
  }
}

interface Parsed {
  info: { lines: number };
  record: string[];
}

/** Without its byte-order mark, which the decoder takes off. */
function decoding(encoding: Encoding): Transform {
  const decoder = new TextDecoder(encoding, { fatal: true });
  return new Transform({
    decodeStrings: true,
    transform: (chunk: Buffer, _encoding, done) => {
      try {
        done(null, decoder.decode(chunk, { stream: true }));
      } catch {
        done(new UnreadableFile(`The file is not in ${encoding}. Choose another encoding.`));
      }
    },
    flush: (done) => {
      try {
        done(null, decoder.decode());
      } catch {
        done(new UnreadableFile(`The file is not in ${encoding}. Choose another encoding.`));
      }
    },
  });
}

function sentenceOf({ code }: CsvError, line: number): string {
  const record = `The record that begins on line ${line}`;
  const again = "Mend it, or choose what really parts the cells.";
  if (code === "CSV_QUOTE_NOT_CLOSED") return `${record} has a quote that nothing closes. ${again}`;
  if (code === "CSV_MAX_RECORD_SIZE") {
    return `${record} is too long for a row of a table: a quote may be open. ${again}`;
  }
  return (
    `${record} has a quote in the wrong place: a cell with quotes stands in quotes, and each ` +
    `quote inside it is doubled (RFC 4180). ${again}`
  );
}
