// That the files of a bag are those that were signed: each as listed, none missing, none added, and
// the list signed (RFC 8493, 3).
import { createHash } from "node:crypto";
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
import type { BagFault } from "../domain/evidence/recheck-verdicts.ts";
import { type BagSource, readText } from "./verify-source.ts";

type Found = Record<BagAlgorithm, string> & { bytes: number };

/** Everything in which the bag is not what its manifests say. */
export async function integrityFaults(source: BagSource): Promise<BagFault[]> {
  const found = new Map<string, Found>();
  for (const name of source.names) found.set(name, await sum(source, name));
  const faults = [...source.faults, ...nameFaults(source.names)];
  for (const algorithm of BAG_ALGORITHMS) {
    for (const kind of ["manifest", "tagmanifest"] as const) {
      faults.push(...(await manifestFaults(source, found, kind, algorithm)));
    }
  }
  if (faults.length > 0) return faults;
  if ((await readText(source, "bagit.txt")) !== BAGIT_TXT) {
    faults.push({ file: "bagit.txt", problem: "It is not that of a BagIt 1.0 bag in UTF-8." });
  }
  return [...faults, ...(await oxumFaults(source, found))];
}

async function sum(source: BagSource, name: string): Promise<Found> {
  const [sha256, sha512] = [createHash("sha256"), createHash("sha512")];
  let bytes = 0;
  for await (const chunk of source.open(name)) {
    sha256.update(chunk);
    sha512.update(chunk);
    bytes += chunk.length;
  }
  return { sha256: sha256.digest("hex"), sha512: sha512.digest("hex"), bytes };
}

const nameFaults = (names: readonly string[]): BagFault[] =>
  names
    .filter((file) => !isBagName(file))
    .map((file) => ({ file, problem: "No file of a bag may have this name." }));

async function manifestFaults(
  source: BagSource,
  found: ReadonlyMap<string, Found>,
  kind: "manifest" | "tagmanifest",
  algorithm: BagAlgorithm,
): Promise<BagFault[]> {
  const file = `${kind}-${algorithm}.txt`;
  if (!found.has(file)) return [{ file, problem: "It is missing." }];
  const parsed = parseManifest(await readText(source, file), algorithm);
  if (!parsed.ok) return [{ file, problem: parsed.problem }];
  const belongs = (name: string): boolean => isListedIn(file, name);
  const listed = [...found.keys()].filter(belongs);
  return [
    ...listed
      .filter((name) => !parsed.checksums.has(name))
      .map((name) => ({ file: name, problem: `It is not in ${file}.` })),
    ...differing(parsed.checksums, found, algorithm, file),
    ...[...parsed.checksums.keys()]
      .filter((name) => !belongs(name))
      .map((name) => ({ file, problem: `It must not list ${name}.` })),
  ];
}

function isListedIn(manifest: string, name: string): boolean {
  if (!manifest.startsWith("tag")) return name.startsWith("data/");
  if (name.startsWith("data/")) return false;
  return !UNLISTED.includes(name) || (SEALS.includes(name) && manifest !== SIGNED_MANIFEST);
}

function differing(
  checksums: Checksums,
  found: ReadonlyMap<string, Found>,
  algorithm: BagAlgorithm,
  manifest: string,
): BagFault[] {
  return [...checksums].flatMap(([file, checksum]) => {
    const there = found.get(file);
    if (!there) return [{ file, problem: `It is missing; ${manifest} lists it.` }];
    if (there[algorithm] === checksum) return [];
    return [{ file, problem: `It does not have the checksum that ${manifest} lists.` }];
  });
}

async function oxumFaults(
  source: BagSource,
  found: ReadonlyMap<string, Found>,
): Promise<BagFault[]> {
  const payload = [...found].filter(([name]) => name.startsWith("data/"));
  const octets = payload.reduce((total, [, { bytes }]) => total + bytes, 0);
  const info = await readText(source, "bag-info.txt");
  if (info.includes(`Payload-Oxum: ${octets}.${payload.length}\n`)) return [];
  return [{ file: "bag-info.txt", problem: "Payload-Oxum is not what the payload comes to." }];
}
