// That the files of a bag are those that were signed: each as listed, none missing, none added, and
// the list signed (RFC 8493, 3).

import { type BagFault, fault } from "../domain/evidence/bag-fault.ts";
import {
  BAG_ALGORITHMS,
  BAGIT_TXT,
  type BagAlgorithm,
  type Checksums,
  isBagName,
  parseManifest,
  SEALS,
  SIGNED_MANIFEST,
  UNLISTED,
} from "../domain/evidence/bag-manifest.ts";
import { type BagSource, readText } from "./bag-source.ts";
import type { FileSums, Summing } from "./bag-sums.ts";

export interface Passing {
  sumsOf: Summing;
  /** Told how many bytes have been read, every so often; what it throws ends the check. */
  onProgress?(bytes: number): void;
}

/** Everything in which the bag is not what its manifests say. */
export async function integrityFaults(source: BagSource, how: Passing): Promise<BagFault[]> {
  const found = new Map<string, FileSums>();
  let read = 0;
  const pass = (bytes: number): void => {
    read += bytes;
    how.onProgress?.(read);
  };
  for (const name of source.names) {
    found.set(name, await how.sumsOf(told(source.open(name), pass)));
  }
  const faults = [...source.faults, ...crcFaults(source, found), ...nameFaults(source.names)];
  for (const algorithm of BAG_ALGORITHMS) {
    for (const kind of ["manifest", "tagmanifest"] as const) {
      faults.push(...(await manifestFaults(source, found, kind, algorithm)));
    }
  }
  if (faults.length > 0) return faults;
  if ((await readText(source, "bagit.txt")) !== BAGIT_TXT) {
    faults.push(fault("bagit.txt", "not-bagit"));
  }
  return [...faults, ...(await oxumFaults(source, found))];
}

async function* told(
  parts: AsyncIterable<Uint8Array>,
  pass: (bytes: number) => void,
): AsyncIterable<Uint8Array> {
  for await (const part of parts) {
    pass(part.length);
    yield part;
  }
}

const crcFaults = (source: BagSource, found: ReadonlyMap<string, FileSums>): BagFault[] =>
  [...found]
    .filter(([name, { crc }]) => (source.crcOf?.(name) ?? crc) !== crc)
    .map(([file]) => fault(file, "zip-checksum"));

const nameFaults = (names: readonly string[]): BagFault[] =>
  names.filter((file) => !isBagName(file)).map((file) => fault(file, "name"));

async function manifestFaults(
  source: BagSource,
  found: ReadonlyMap<string, FileSums>,
  kind: "manifest" | "tagmanifest",
  algorithm: BagAlgorithm,
): Promise<BagFault[]> {
  const file = `${kind}-${algorithm}.txt`;
  if (!found.has(file)) return [fault(file, "missing")];
  const parsed = parseManifest(await readText(source, file), algorithm);
  if (!parsed.ok) return [fault(file, "list-unread", { why: parsed.problem })];
  const belongs = (name: string): boolean => isListedIn(file, name);
  const listed = [...found.keys()].filter(belongs);
  return [
    ...listed
      .filter((name) => !parsed.checksums.has(name))
      .map((name) => fault(name, "unlisted", { list: file })),
    ...differing(parsed.checksums, found, algorithm, file),
    ...[...parsed.checksums.keys()]
      .filter((name) => !belongs(name))
      .map((name) => fault(file, "list-surplus", { name })),
  ];
}

function isListedIn(manifest: string, name: string): boolean {
  if (!manifest.startsWith("tag")) return name.startsWith("data/");
  if (name.startsWith("data/")) return false;
  return !UNLISTED.includes(name) || (SEALS.includes(name) && manifest !== SIGNED_MANIFEST);
}

function differing(
  checksums: Checksums,
  found: ReadonlyMap<string, FileSums>,
  algorithm: BagAlgorithm,
  manifest: string,
): BagFault[] {
  return [...checksums].flatMap(([file, checksum]) => {
    const there = found.get(file);
    if (!there) return [fault(file, "missing-listed", { list: manifest })];
    if (there[algorithm] === checksum) return [];
    return [fault(file, "checksum", { list: manifest })];
  });
}

async function oxumFaults(
  source: BagSource,
  found: ReadonlyMap<string, FileSums>,
): Promise<BagFault[]> {
  const payload = [...found].filter(([name]) => name.startsWith("data/"));
  const octets = payload.reduce((total, [, { bytes }]) => total + bytes, 0);
  const info = await readText(source, "bag-info.txt");
  if (info.includes(`Payload-Oxum: ${octets}.${payload.length}\n`)) return [];
  return [fault("bag-info.txt", "payload-sum")];
}
