// The directory at the end of a ZIP file, with the wider fields of large ones (ZIP64). Source: the
// ZIP file format specification (APPNOTE), 4.3.12 to 4.3.16 and 4.5.3, from memory.
import { cutOff, pieces, type RandomAccess } from "./random-access.ts";

export interface ZipEntry {
  name: string;
  method: number;
  crc: number;
  size: number;
  /** Where its header begins. */
  offset: number;
}

export interface Directory {
  entries: ZipEntry[];
  /** Where the directory begins. */
  start: number;
}

type Take = (start: number, length: number) => Promise<DataView>;

const END_BYTES = 22;
const LOCATOR_BYTES = 20;
const END_64_BYTES = 56;
const ENTRY_BYTES = 46;
const END = 0x06054b50;
const LOCATOR = 0x07064b50;
const END_64 = 0x06064b50;
const ENTRY = 0x02014b50;
const WIDE = 0xffffffff;
const DIRECTORY_BYTES_MOST = 256 * 1024 * 1024;

/** Reads the directory; throws one sentence about what is wrong with it. */
export async function readDirectory(file: RandomAccess): Promise<Directory> {
  const take = pieces(file);
  const cut = cutOff(file.name);
  const end = await take(file.size - END_BYTES, END_BYTES);
  if (end.getUint32(0, true) !== END) throw cut;
  const { count, bytes, start, tail } = await extent(end, file.size, take);
  if (start + bytes !== file.size - tail || bytes > DIRECTORY_BYTES_MOST) throw cut;
  const entries = readEntries(await take(start, bytes));
  if (entries?.length !== count || count === 0) throw cut;
  return { entries, start };
}

/** `tail` counts the bytes after the directory. */
async function extent(end: DataView, fileBytes: number, take: Take) {
  const short = { count: end.getUint16(10, true), bytes: end.getUint32(12, true) };
  const start = end.getUint32(16, true);
  if (short.count !== 0xffff && short.bytes !== WIDE && start !== WIDE) {
    return { ...short, start, tail: END_BYTES };
  }
  const locator = await take(fileBytes - END_BYTES - LOCATOR_BYTES, LOCATOR_BYTES);
  const wide = await take(Number(locator.getBigUint64(8, true)), END_64_BYTES);
  if (locator.getUint32(0, true) !== LOCATOR || wide.getUint32(0, true) !== END_64) {
    return { ...short, start, tail: END_BYTES };
  }
  return {
    count: Number(wide.getBigUint64(32, true)),
    bytes: Number(wide.getBigUint64(40, true)),
    start: Number(wide.getBigUint64(48, true)),
    tail: END_BYTES + LOCATOR_BYTES + END_64_BYTES,
  };
}

/** Undefined where they are not what a directory holds. */
function readEntries(view: DataView): ZipEntry[] | undefined {
  const entries: ZipEntry[] = [];
  const textAt = (start: number, length: number): string =>
    new TextDecoder().decode(new Uint8Array(view.buffer, view.byteOffset + start, length));
  let at = 0;
  while (at < view.byteLength) {
    const left = view.byteLength - at;
    if (left < ENTRY_BYTES || view.getUint32(at, true) !== ENTRY) return undefined;
    const lengths = [28, 30, 32].map((place) => view.getUint16(at + place, true));
    const [nameBytes = 0, extraBytes = 0, commentBytes = 0] = lengths;
    const extraAt = at + ENTRY_BYTES + nameBytes;
    if (extraAt + extraBytes + commentBytes > view.byteLength) return undefined;
    const numbers = [24, 20, 42].map((place) => view.getUint32(at + place, true));
    const extra = new DataView(view.buffer, view.byteOffset + extraAt, extraBytes);
    const [size = 0, , offset = 0] = widened(numbers, extra);
    const name = textAt(at + ENTRY_BYTES, nameBytes);
    const [method, crc] = [view.getUint16(at + 10, true), view.getUint32(at + 16, true)];
    entries.push({ name, method, crc, size, offset });
    at = extraAt + extraBytes + commentBytes;
  }
  return entries;
}

/** Size, stored size and offset; those too large for their place follow in field 1, in order. */
function widened(numbers: readonly number[], extra: DataView): number[] {
  const wide: number[] = [];
  for (let at = 0; at + 4 <= extra.byteLength; at += 4 + extra.getUint16(at + 2, true)) {
    if (extra.getUint16(at, true) !== 1) continue;
    const until = Math.min(at + 4 + extra.getUint16(at + 2, true), extra.byteLength);
    for (let place = at + 4; place + 8 <= until; place += 8) {
      wide.push(Number(extra.getBigUint64(place, true)));
    }
  }
  return numbers.map((number) => (number === WIDE ? (wide.shift() ?? number) : number));
}
