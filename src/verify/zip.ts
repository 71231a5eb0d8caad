// Reads a ZIP file of the kind that bags are sent in: stored files, one after the other, nothing
// between or after. Anything else about it is a fault, because something else may be hidden there.
// Source: the ZIP file format specification (APPNOTE), 4.3 and 4.5.3, from memory.
import { type BagFault, fault } from "../domain/evidence/bag-fault.ts";
import type { BagSource } from "./bag-source.ts";
import { pieces, type RandomAccess, Unreadable } from "./random-access.ts";
import { type Directory, readDirectory, type ZipEntry } from "./zip-directory.ts";

const LOCAL_BYTES = 30;
const LOCAL_SIGNATURE = 0x04034b50;
const DESCRIPTOR_SIGNATURE = 0x08074b50;
const HAS_DESCRIPTOR = 8;

interface Placed extends ZipEntry {
  start: number;
}

/** Opens a ZIP file; throws one sentence about what keeps it from being read. */
export async function openZip(file: RandomAccess): Promise<BagSource> {
  const placed = await placeAll(file, await readDirectory(file));
  const folder = `${placed[0]?.name.split("/")[0]}/`;
  const files = new Map<string, Placed>();
  const faults: BagFault[] = [];
  for (const entry of placed) {
    const name = entry.name.slice(folder.length);
    if (!entry.name.startsWith(folder)) {
      faults.push(fault(entry.name, "outside-folder"));
    } else if (files.has(name)) {
      faults.push(fault(name, "twice-in-zip"));
    } else files.set(name, entry);
  }
  const entryOf = (name: string): Placed => {
    const entry = files.get(name);
    if (!entry) throw new Error(`${name} is not in ${file.name}`);
    return entry;
  };
  return {
    names: [...files.keys()].sort(),
    faults,
    bytes: placed.reduce((sum, { size }) => sum + size, 0),
    open: (name) => {
      const { start, size } = entryOf(name);
      return size === 0 ? nothing() : file.read(start, start + size);
    },
    crcOf: (name) => entryOf(name).crc,
  };
}

async function* nothing(): AsyncIterable<Uint8Array> {}

const oddly = ({ name: file }: RandomAccess, why: string): Error =>
  new Unreadable("odd", { file, why }, `${file}: ${why}`);

const compressed = ({ name: file }: RandomAccess, { name: entry }: ZipEntry): Error => {
  const sentence = `${file}: ${entry} is compressed; evidence bags are stored.`;
  return new Unreadable("compressed", { file, entry }, sentence);
};

/** Finds where each file's bytes begin, and that the files follow on each other without a gap. */
async function placeAll(file: RandomAccess, { entries, start }: Directory): Promise<Placed[]> {
  const take = pieces(file);
  const placed: Placed[] = [];
  let next = 0;
  for (const entry of entries) {
    const refuse = (why: string) => oddly(file, `${entry.name} ${why}.`);
    if (entry.offset !== next) throw refuse("does not follow on the file before it");
    if (entry.method !== 0) throw compressed(file, entry);
    const header = await take(entry.offset, LOCAL_BYTES);
    if (header.getUint32(0, true) !== LOCAL_SIGNATURE) throw refuse("has no header");
    const [nameBytes, extraBytes] = [header.getUint16(26, true), header.getUint16(28, true)];
    const name = await take(entry.offset + LOCAL_BYTES, nameBytes);
    if (new TextDecoder().decode(name) !== entry.name) throw refuse("has two names");
    const begin = entry.offset + LOCAL_BYTES + nameBytes + extraBytes;
    next = begin + entry.size;
    if ((header.getUint16(6, true) & HAS_DESCRIPTOR) !== 0) {
      const descriptor = await take(next, 4);
      if (descriptor.getUint32(0, true) !== DESCRIPTOR_SIGNATURE) throw refuse("has no end");
      next += entry.size > 0xfffffffe ? 24 : 16;
    }
    placed.push({ ...entry, start: begin });
  }
  if (next !== start) {
    throw oddly(file, "there is something between files and directory.");
  }
  return placed;
}
