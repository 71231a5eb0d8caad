// What somebody may do to a bag, and how an outsider would notice: by the commands of its README.
import { execFile, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import {
  manifestText,
  SIGNATURE,
  SIGNED_MANIFEST,
} from "../../src/domain/evidence/bag-manifest.ts";
import { importKey, makeKey, toPem } from "../../src/features/evidence/certificate.ts";
import { type Signer, signDetached } from "../../src/features/evidence/signature.ts";
import type { Chance } from "./chance.ts";
import { type Edit, TEXT_EDITS } from "./text-tampering.ts";

const TOOLS = [
  "sh",
  "sha256sum",
  "sha512sum",
  "find",
  "sort",
  "cut",
  "xargs",
  "diff",
  "cmp",
  "openssl",
];

/** Tools of the README that this machine lacks. */
export const missingTools = (): string[] =>
  TOOLS.filter((tool) => spawnSync("sh", ["-c", `command -v ${tool}`]).status !== 0);

/** The README's indented lines, as one script that stops where one of them fails. */
export function readmeScript(folder: string): string {
  const lines = readFileSync(join(folder, "README.txt"), "utf8").split("\n");
  const commands = lines.filter((line) => /^ {4}\S|^ {6}/.test(line)).map((line) => line.slice(4));
  return ["set -e", ...commands].join("\n");
}

/** Whether the script finds the bag whole, and what it printed. */
export function runReadme(
  script: string,
  folder: string,
  certificates: string,
  { roots = "", locale }: { roots?: string; locale?: string } = {},
) {
  const env = { ...settingsOf(folder, certificates, roots), ...(locale && { LC_ALL: locale }) };
  const options = { cwd: folder, env, timeout: 60_000, encoding: "utf8" as const };
  const ran = spawnSync("sh", ["-c", script], options);
  return { whole: ran.status === 0, said: `${ran.stdout}${ran.stderr}` };
}

const settingsOf = (folder: string, certificates: string, roots: string) => ({
  PATH: process.env.PATH ?? "",
  CERTIFICATES: certificates,
  TIME_STAMP_CERTIFICATES: roots,
  TMPDIR: dirname(folder),
});

/** Whether the script finds the bag whole, while others are tried beside it. */
export function findsWhole(script: string, folder: string, certificates: string): Promise<boolean> {
  const options = { cwd: folder, env: settingsOf(folder, certificates, ""), timeout: 60_000 };
  return new Promise((told) => {
    execFile("sh", ["-c", script], options, (failed) => told(failed === null));
  });
}

export function filesIn(folder: string): string[] {
  const entries = readdirSync(folder, { recursive: true, encoding: "utf8" });
  return entries.filter((name) => statSync(join(folder, name)).isFile()).sort();
}

export function flipBit(path: string, place: number, bit: number): void {
  const bytes = readFileSync(path);
  bytes[place] = (bytes[place] ?? 0) ^ (1 << bit);
  writeFileSync(path, bytes);
}

/** A key that nobody knows. */
export async function strangersKey(): Promise<Signer> {
  const firm = { id: "00000000-0000-7000-8000-000000000000", name: "alder" };
  const made = await makeKey(firm, new Date("2026-11-25T17:00:00Z"));
  return { key: await importKey(made.privateKey), certificate: made.certificate };
}

/** Makes all manifests anew for what lies in the folder, and signs them. */
export async function resign(folder: string, signer: Signer): Promise<void> {
  writeFileSync(join(folder, "certs/signer.pem"), toPem(signer.certificate));
  const payload = (name: string): boolean => name.startsWith("data/");
  const tag = (name: string): boolean => !payload(name) && !name.startsWith("tagmanifest-");
  const list = (file: string, algorithm: string, isIn: (name: string) => boolean): void => {
    const sum = (name: string): string =>
      createHash(algorithm)
        .update(readFileSync(join(folder, name)))
        .digest("hex");
    const sums = filesIn(folder)
      .filter(isIn)
      .map((name): [string, string] => [name, sum(name)]);
    writeFileSync(join(folder, file), manifestText(new Map(sums)));
  };
  const stated = filesIn(folder).filter(payload);
  const octets = stated.reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
  const info = readFileSync(join(folder, "bag-info.txt"), "utf8");
  const oxum = `Payload-Oxum: ${octets}.${stated.length}`;
  writeFileSync(join(folder, "bag-info.txt"), info.replace(/Payload-Oxum: .*/, oxum));
  list("manifest-sha256.txt", "sha256", payload);
  list("manifest-sha512.txt", "sha512", payload);
  list(SIGNED_MANIFEST, "sha256", tag);
  const manifest = readFileSync(join(folder, SIGNED_MANIFEST));
  writeFileSync(join(folder, SIGNATURE), await signDetached(manifest, signer, new Date(0)));
  list("tagmanifest-sha512.txt", "sha512", (name) => tag(name) || name === SIGNATURE);
}

export const LEDGER = "data/ledger/entries.jsonl";

export function swapLedgerLines(folder: string, chance: Chance): void {
  const path = join(folder, LEDGER);
  const lines = readFileSync(path, "utf8").trimEnd().split("\n");
  const first = chance.between(0, lines.length - 2);
  const second = chance.between(first + 1, lines.length - 1);
  [lines[first], lines[second]] = [lines[second] ?? "", lines[first] ?? ""];
  writeFileSync(path, `${lines.join("\n")}\n`);
}

/** Each changes the bag in a way of its own, at a place of chance. */
export const EDITS: Readonly<Record<string, Edit>> = {
  flip: (folder, chance) => {
    const path = join(folder, pickFilled(folder, chance));
    flipBit(path, chance.between(0, statSync(path).size - 1), chance.between(0, 7));
  },
  truncate: (folder, chance) => {
    const path = join(folder, pickFilled(folder, chance));
    truncateSync(path, chance.between(0, statSync(path).size - 1));
  },
  swap: (folder, chance) => {
    const names = filesIn(folder);
    const first = chance.pick(names);
    const others = names.filter((name) => !same(folder, first, name));
    const second = chance.pick(others);
    renameSync(join(folder, first), join(folder, "swapped"));
    renameSync(join(folder, second), join(folder, first));
    renameSync(join(folder, "swapped"), join(folder, second));
  },
  add: (folder, chance) => {
    const beside = chance.pick(filesIn(folder));
    writeFileSync(join(folder, `${beside}.${chance.between(1, 99)}`), "added");
  },
  rename: (folder, chance) => {
    const name = chance.pick(filesIn(folder));
    renameSync(join(folder, name), join(folder, `${name}x`));
  },
  delete: (folder, chance) => rmSync(join(folder, chance.pick(filesIn(folder)))),
  "reorder ledger lines": swapLedgerLines,
  "reorder ledger lines and sign with another key": async (folder, chance) => {
    swapLedgerLines(folder, chance);
    await resign(folder, await strangersKey());
  },
  "change a record and sign with another key": async (folder, chance) => {
    const records = filesIn(folder).filter((name) => name.startsWith("data/records/"));
    const path = join(folder, chance.pick(records));
    flipBit(path, chance.between(0, statSync(path).size - 1), chance.between(0, 6));
    await resign(folder, await strangersKey());
  },
  ...TEXT_EDITS,
  "change nothing and sign with another key": async (folder) =>
    resign(folder, await strangersKey()),
};

const pickFilled = (folder: string, chance: Chance): string =>
  chance.pick(filesIn(folder).filter((name) => statSync(join(folder, name)).size > 0));

const same = (folder: string, first: string, second: string): boolean =>
  readFileSync(join(folder, first)).equals(readFileSync(join(folder, second)));
