// Reads a ZIP file of the kind that bags are sent in: stored files, one after the other, nothing
// between or after. Anything else about it is a fault, because something else may be hidden there.
// Source: the ZIP file format specification (APPNOTE), 4.3 and 4.5.3, from memory.
import { createReadStream } from "node:fs";
import { open } from "node:fs/promises";
import { Readable } from "node:stream";
import { crc32 } from "node:zlib";
import type { BagFault } from "../domain/evidence/recheck-verdicts.ts";
import type { BagSource } from "./verify-source.ts";
import { type Directory, readDirectory, type ZipEntry } from "./verify-zip-directory.ts";

const LOCAL_BYTES = 30;
const LOCAL_SIGNATURE = 0x04034b50;
const DESCRIPTOR_SIGNATURE = 0x08074b50;
const HAS_DESCRIPTOR = 8;

interface Placed extends ZipEntry {
  start: number;
}

/** Opens a ZIP file; throws one sentence about what keeps it from being read. */
export async function openZip(path: string): Promise<BagSource> {
  const directory = await readDirectory(path);
  const placed = await placeAll(path, directory);
  const folder = `${placed[0]?.name.split("/")[0]}/`;
  const files = new Map<string, Placed>();
  const faults: BagFault[] = [];
  for (const entry of placed) {
    const file = entry.name.slice(folder.length);
    if (!entry.name.startsWith(folder)) {
      faults.push({ file: entry.name, problem: "It lies outside the one folder of the bag." });
    } else if (files.has(file)) faults.push({ file, problem: "It is in the ZIP file twice." });
    else files.set(file, entry);
  }
  for (const [file, entry] of files) {
    const good = (await checksum(path, entry)) === entry.crc;
    if (!good)
      faults.push({ file, problem: "Its bytes do not have the checksum of the ZIP file." });
  }
  const contentOf = (name: string): Readable => {
    const entry = files.get(name);
    if (!entry) throw new Error(`${name} is not in ${path}`);
    return content(path, entry);
  };
  return { names: [...files.keys()].sort(), faults, open: contentOf };
}

const content = (path: string, { start, size }: Placed): Readable =>
  size === 0 ? Readable.from([]) : createReadStream(path, { start, end: start + size - 1 });

async function checksum(path: string, entry: Placed): Promise<number> {
  let sum = 0;
  for await (const chunk of content(path, entry)) sum = crc32(chunk, sum);
  return sum;
}

/** Finds where each file's bytes begin, and that the files follow on each other without a gap. */
async function placeAll(path: string, { entries, start }: Directory): Promise<Placed[]> {
  const file = await open(path);
  try {
    const placed: Placed[] = [];
    let next = 0;
    for (const entry of entries) {
      const refuse = (why: string) => new Error(`${path}: ${entry.name} ${why}.`);
      if (entry.offset !== next) throw refuse("does not follow on the file before it");
      if (entry.method !== 0) throw refuse("is compressed; evidence bags are stored");
      const header = Buffer.alloc(LOCAL_BYTES);
      await file.read(header, 0, LOCAL_BYTES, entry.offset);
      if (header.readUInt32LE(0) !== LOCAL_SIGNATURE) throw refuse("has no header");
      const [nameBytes, extraBytes] = [header.readUInt16LE(26), header.readUInt16LE(28)];
      const name = Buffer.alloc(nameBytes);
      await file.read(name, 0, nameBytes, entry.offset + LOCAL_BYTES);
      if (name.toString() !== entry.name) throw refuse("has two names");
      const begin = entry.offset + LOCAL_BYTES + nameBytes + extraBytes;
      next = begin + entry.size;
      if ((header.readUInt16LE(6) & HAS_DESCRIPTOR) !== 0) {
        const descriptor = Buffer.alloc(4);
        await file.read(descriptor, 0, 4, next);
        if (descriptor.readUInt32LE(0) !== DESCRIPTOR_SIGNATURE) throw refuse("has no end");
        next += entry.size > 0xfffffffe ? 24 : 16;
      }
      placed.push({ ...entry, start: begin });
    }
    if (next !== start) throw new Error(`${path}: there is something between files and directory.`);
    return placed;
  } finally {
    await file.close();
  }
}
