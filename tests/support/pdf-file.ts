// A PDF file as a whole (ISO 32000-1, 7.5): it must have one classic cross-reference table, and
// each object must stand where that says.
import { inflateSync } from "node:zlib";
import { type Dict, Name, Reader, Ref, type Stream, type Value } from "./pdf-objects.ts";

export interface PdfFile {
  bytes: Buffer;
  trailer: Dict;
  objects: ReadonlyMap<number, Value | Stream>;
  /** Follows references to what they name. */
  get(value: Value | undefined): Value | undefined;
}

export const isStream = (value: unknown): value is Stream =>
  typeof value === "object" && value !== null && "raw" in value;

export const isDict = (value: unknown): value is Dict =>
  typeof value === "object" &&
  value !== null &&
  !Array.isArray(value) &&
  Object.getPrototypeOf(value) === null;

/** A stream's bytes with its filter, of which only Flate is undone. */
export const content = ({ dict, raw }: Stream): Buffer =>
  dict.Filter instanceof Name && dict.Filter.text === "FlateDecode" ? inflateSync(raw) : raw;

export function readObjects(bytes: Buffer): PdfFile {
  const text = bytes.toString("latin1");
  const start = Number(/startxref\s+(\d+)\s+%%EOF\s?$/.exec(text.slice(-64))?.[1]);
  const [, first, count, rows = ""] =
    /^xref\r?\n(\d+) (\d+)\r?\n((?:\d{10} \d{5} [nf](?: \r| \n|\r\n))+)trailer/.exec(
      text.slice(start),
    ) ?? [];
  if (first !== "0" || rows.length !== 20 * Number(count)) throw new Error("6.1.4: no xref table");
  const objects = new Map<number, Value | Stream>();
  for (let number = 1; number < Number(count); number += 1) {
    const at = Number(rows.slice(number * 20, number * 20 + 10));
    objects.set(number, objectAt(bytes, text, number, at));
  }
  const trailerAt = text.indexOf("trailer", start) + "trailer".length;
  const trailer = new Reader(bytes, trailerAt).next() as Dict;
  const get = (value: Value | undefined) =>
    value instanceof Ref ? objects.get(value.number) : value;
  return { bytes, trailer, objects, get };
}

function objectAt(bytes: Buffer, text: string, number: number, at: number): Value | Stream {
  const head = `${number} 0 obj`;
  if (!text.startsWith(head, at)) throw new Error(`object ${number} is not where the table says`);
  const reader = new Reader(bytes, at + head.length);
  const value = reader.next() as Value;
  const end = text.slice(reader.at, reader.at + 24);
  if (/^\s*endobj/.test(end)) return value;
  const opening = /^\s*stream(?:\r\n|\n)/.exec(end);
  const dict = value as Dict;
  if (!opening || !isDict(dict)) throw new Error(`object ${number} ends in ${end}`);
  const from = reader.at + opening[0].length;
  const length = dict.Length as number;
  if (!/^\r?\nendstream\s+endobj/.test(text.slice(from + length, from + length + 24))) {
    throw new Error(`6.1.7.1: the Length of stream ${number} is wrong`);
  }
  return { dict, raw: bytes.subarray(from, from + length) };
}
