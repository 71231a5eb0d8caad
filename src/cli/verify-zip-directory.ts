// The directory at the end of a ZIP file, with the wider fields of large ones (ZIP64). Source: the
// ZIP file format specification (APPNOTE), 4.3.12 to 4.3.16 and 4.5.3, from memory.
import { open } from "node:fs/promises";

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
export async function readDirectory(path: string): Promise<Directory> {
  const file = await open(path);
  const take = async (position: number, length: number): Promise<Buffer> => {
    const bytes = Buffer.alloc(length);
    const { bytesRead } = await file.read(bytes, 0, length, position);
    if (position < 0 || bytesRead !== length) throw cut(path);
    return bytes;
  };
  try {
    const { size: fileBytes } = await file.stat();
    if (fileBytes < END_BYTES) throw cut(path);
    const end = await take(fileBytes - END_BYTES, END_BYTES);
    if (end.readUInt32LE(0) !== END) throw cut(path);
    const { count, bytes, start, tail } = await extent(end, fileBytes, take);
    if (start + bytes !== fileBytes - tail || bytes > DIRECTORY_BYTES_MOST) throw cut(path);
    return { entries: readEntries(await take(start, bytes), count, path), start };
  } finally {
    await file.close();
  }
}

const cut = (path: string): Error =>
  new Error(`${path} is no whole ZIP file. Fetch it again, or name the folder it was unpacked to.`);

/** `tail` counts the bytes after the directory. */
async function extent(
  end: Buffer,
  fileBytes: number,
  take: (position: number, length: number) => Promise<Buffer>,
) {
  const short = { count: end.readUInt16LE(10), bytes: end.readUInt32LE(12) };
  const start = end.readUInt32LE(16);
  if (short.count !== 0xffff && short.bytes !== WIDE && start !== WIDE) {
    return { ...short, start, tail: END_BYTES };
  }
  const locator = await take(fileBytes - END_BYTES - LOCATOR_BYTES, LOCATOR_BYTES);
  const wide = await take(Number(locator.readBigUInt64LE(8)), END_64_BYTES);
  if (locator.readUInt32LE(0) !== LOCATOR || wide.readUInt32LE(0) !== END_64) {
    return { ...short, start, tail: END_BYTES };
  }
  return {
    count: Number(wide.readBigUInt64LE(32)),
    bytes: Number(wide.readBigUInt64LE(40)),
    start: Number(wide.readBigUInt64LE(48)),
    tail: END_BYTES + LOCATOR_BYTES + END_64_BYTES,
  };
}

function readEntries(bytes: Buffer, count: number, path: string): ZipEntry[] {
  const entries: ZipEntry[] = [];
  let at = 0;
  while (at < bytes.length) {
    const left = bytes.length - at;
    if (left < ENTRY_BYTES || bytes.readUInt32LE(at) !== ENTRY) throw cut(path);
    const lengths = [28, 30, 32].map((place) => bytes.readUInt16LE(at + place));
    const [nameBytes = 0, extraBytes = 0, commentBytes = 0] = lengths;
    const extraAt = at + ENTRY_BYTES + nameBytes;
    if (extraAt + extraBytes + commentBytes > bytes.length) throw cut(path);
    const narrow = [bytes.readUInt32LE(at + 24), bytes.readUInt32LE(at + 20)];
    const numbers = [...narrow, bytes.readUInt32LE(at + 42)];
    const [size = 0, , offset = 0] = widened(
      numbers,
      bytes.subarray(extraAt, extraAt + extraBytes),
    );
    const name = bytes.toString("utf8", at + ENTRY_BYTES, extraAt);
    const [method, crc] = [bytes.readUInt16LE(at + 10), bytes.readUInt32LE(at + 16)];
    entries.push({ name, method, crc, size, offset });
    at = extraAt + extraBytes + commentBytes;
  }
  if (entries.length !== count || count === 0) throw cut(path);
  return entries;
}

/** Size, stored size and offset; those too large for their place follow in field 1, in order. */
function widened(numbers: readonly number[], extra: Buffer): number[] {
  const wide: number[] = [];
  for (let at = 0; at + 4 <= extra.length; at += 4 + extra.readUInt16LE(at + 2)) {
    if (extra.readUInt16LE(at) !== 1) continue;
    const until = Math.min(at + 4 + extra.readUInt16LE(at + 2), extra.length);
    for (let place = at + 4; place + 8 <= until; place += 8) {
      wide.push(Number(extra.readBigUInt64LE(place)));
    }
  }
  return numbers.map((number) => (number === WIDE ? (wide.shift() ?? number) : number));
}
