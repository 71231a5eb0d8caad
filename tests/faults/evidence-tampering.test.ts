// Whatever is changed in an evidence bag is noticed by a stranger with the tools of a bare machine
// (the README's own commands, taken out of the README), and by verify.
import { cpSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { chanceOf, SEED } from "../support/chance.ts";
import {
  addProvenJob,
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import {
  EDITS,
  filesIn,
  findsWhole,
  LEDGER,
  missingTools,
  readmeScript,
  runReadme,
} from "../support/evidence-tampering.ts";
import { flipEach, flipsIn } from "../support/flipped-bits.ts";

const MINUTES = 60_000;
/** Places of flips, edits and exports: a sample here, all of them in `npm run soak:tampering`. */
const counts = (name: string, quick: number): number => Number(process.env[name] ?? quick);
const [FLIPS, ROUNDS, EXPORTS] = [counts("FLIPS", 40), counts("EDITS", 60), counts("EXPORTS", 4)];
const missing = missingTools();
const lacking = `this machine has no ${missing.join(", ")}, which the README's commands need`;
let stage: EvidenceStage;
let jobId: string;
let folder: string;
let script: string;
let trusted: string;
let certificates: string;

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  const job = await addProvenJob(stage.service);
  jobId = job.jobId;
  folder = await unpack(await downloadBag(stage.service, jobId), stage.folder);
  script = readmeScript(folder);
  trusted = await certificatesOf(stage.service);
  certificates = join(stage.folder, "firm.pem");
  writeFileSync(certificates, trusted);
});
afterAll(() => stage.stop());

/** By whom the change was overlooked. */
async function overlookedBy(changed: string): Promise<string[]> {
  const overlooked: string[] = [];
  if ((await verifyBag(changed, trusted)).faults.length === 0) overlooked.push("verify");
  if (missing.length === 0 && (await findsWhole(script, changed, certificates))) {
    overlooked.push("the README's commands");
  }
  return overlooked;
}

describe("an untouched bag", () => {
  test("is found whole by the README's commands, openssl's check of the signature included", ({
    skip,
  }) => {
    skip(missing.length > 0, lacking);
    expect(script).toContain("openssl cms -verify");
    const { whole, said } = runReadme(script, folder, certificates);
    expect([whole, said]).toEqual([true, expect.stringContaining("Verification successful")]);
  });

  test("is found whole with its own certificate, and by verify", async ({ skip }) => {
    expect((await verifyBag(folder, trusted)).faults).toEqual([]);
    skip(missing.length > 0, lacking);
    expect(runReadme(script, folder, "").whole).toBe(true);
  });
});

// Before the flips: every byte of a bag takes longer than a session lasts.
test(
  "the same record exports again with the same manifests",
  async () => {
    const manifests = new Set<string>();
    for (let round = 0; round < EXPORTS; round += 1) {
      const again = await unpack(await downloadBag(stage.service, jobId), stage.folder);
      const names = filesIn(again).filter((name) => /manifest-/.test(name));
      manifests.add(names.map((name) => readFileSync(join(again, name), "latin1")).join());
      rmSync(again, { recursive: true });
      rmSync(`${again}.zip`);
    }
    process.stdout.write(`exports again: ${EXPORTS}, ${manifests.size} sets of manifests\n`);
    expect(manifests.size).toBe(1);
  },
  60 * MINUTES,
);

describe("a flipped bit", () => {
  test(
    "is noticed in every file, at places from the first byte to the last",
    async () => {
      const files = filesIn(folder);
      const mostEach = Math.max(2, Math.ceil(FLIPS / files.length));
      const flips = flipsIn(folder, files, mostEach);
      expect(new Set(flips.map(({ file }) => file)).size).toBe(files.length);
      expect(await flipEach(folder, flips, overlookedBy)).toEqual([]);
    },
    600 * MINUTES,
  );

  test(
    "is noticed in every byte of the signature and of the manifests that nothing signs",
    async () => {
      const most = Math.max(2, Math.ceil(FLIPS / 5));
      const signature = flipsIn(folder, ["tagmanifest-sha256.txt.p7s"], most);
      // The case of a letter is the one flip that checksum tools read alike.
      const twin = flipsIn(folder, ["tagmanifest-sha512.txt"], most);
      const flips = [...signature, ...twin.map((flip) => ({ ...flip, bit: 5 }))];
      expect(await flipEach(folder, flips, overlookedBy)).toEqual([]);
    },
    30 * MINUTES,
  );
});

test("a certificate that is no base64, or no certificate, is told as a fault", async () => {
  const path = join(folder, "certs/signer.pem");
  const whole = readFileSync(path, "utf8");
  for (const text of [whole.replace("MII", "M!I"), whole.replace("MII", "QUF"), "none"]) {
    writeFileSync(path, text);
    const { faults } = await verifyBag(folder, trusted);
    expect(new Set(faults.map(({ file }) => file))).toContain("certs/signer.pem");
  }
  writeFileSync(path, whole);
});

test(
  `random edits are all noticed (seed ${SEED})`,
  async () => {
    const chance = chanceOf(SEED);
    const names = Object.keys(EDITS);
    const overlooked: string[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      const name = names[round % names.length] ?? "";
      const changed = join(stage.folder, `round-${round}`);
      cpSync(folder, changed, { recursive: true });
      await EDITS[name]?.(changed, chance);
      for (const who of await overlookedBy(changed)) overlooked.push(`${round} ${name}: ${who}`);
      rmSync(changed, { recursive: true });
    }
    process.stdout.write(
      `random edits: ${ROUNDS}, ${overlooked.length} overlooked (SEED=${SEED})\n`,
    );
    expect(overlooked).toEqual([]);
  },
  60 * MINUTES,
);

describe("the README's replay of the ledger alone", () => {
  const replay = (): string => `set -e\n${script.slice(script.indexOf("for ledger"))}`;
  const lines = (): string[] => readFileSync(join(folder, LEDGER), "utf8").trimEnd().split("\n");

  test.for<[string, (all: string[]) => string[]]>([
    ["an entry left out", (all) => all.toSpliced(2, 1)],
    ["an entry twice", (all) => all.toSpliced(2, 0, all[2] ?? "")],
    ["two entries in the other order", (all) => all.toSpliced(2, 2, all[3]!, all[2]!)],
    ["the last entry cut off", (all) => all.slice(0, -1)],
    [
      "a word of an entry changed",
      (all) => all.with(2, all[2]!.replace('"clears":true', '"clears":false')),
    ],
  ])("notices %s", ([, change], { skip }) => {
    skip(missing.length > 0, lacking);
    const path = join(folder, LEDGER);
    const whole = readFileSync(path);
    expect(runReadme(replay(), folder, "").whole).toBe(true);
    const changed = change(lines());
    expect(changed).not.toEqual(lines());
    writeFileSync(path, `${changed.join("\n")}\n`);
    const { whole: overlooked } = runReadme(replay(), folder, "");
    writeFileSync(path, whole);
    expect(overlooked).toBe(false);
  });
});
