// What the firm itself could change and sign again with its own key: manifests and signature are
// right then, and ledger and rules still show it.
import { cpSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { inFirm } from "../../src/db/scope.ts";
import { canonicalize } from "../../src/domain/evidence/canonical-json.ts";
import { importKey } from "../../src/features/evidence/certificate.ts";
import { newestKey } from "../../src/features/evidence/key-store.ts";
import { unsealKey } from "../../src/features/evidence/sealed-key.ts";
import type { Signer } from "../../src/features/evidence/signature.ts";
import { fromPem } from "../../src/verify/certificates.ts";
import { chanceOf } from "../support/chance.ts";
import {
  addProvenJob,
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { filesIn, LEDGER, resign, swapLedgerLines } from "../support/evidence-tampering.ts";

let stage: EvidenceStage;
let folder: string;
let trusted: string;
let own: Signer;

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  const job = await addProvenJob(stage.service);
  folder = await unpack(await downloadBag(stage.service, job.jobId), stage.folder);
  trusted = await certificatesOf(stage.service);
  own = await firmsKey();
});
afterAll(() => stage.stop());

async function firmsKey(): Promise<Signer> {
  const { db, firm } = stage.service;
  const row = await inFirm(db, firm.firmId, newestKey);
  const privateKey = unsealKey(join(stage.folder, "data"), row!.id, row!.sealedKey);
  return { key: await importKey(privateKey!), certificate: fromPem(row!.certificate)[0]! };
}

type Json = Record<string, never> & never[];

/** Changes one record file in a copy of the bag, signs the copy with the firm's key, checks it. */
async function faultsAfter(change: (copy: string) => void) {
  const copy = `${folder}-changed`;
  cpSync(folder, copy, { recursive: true });
  change(copy);
  await resign(copy, own);
  const { faults } = await verifyBag(copy, trusted);
  rmSync(copy, { recursive: true });
  return faults;
}

function editJson(copy: string, name: string, edit: (value: never) => void): void {
  const path = join(copy, "data/records", name);
  const value = JSON.parse(readFileSync(path, "utf8")) as Json;
  edit(value as never);
  const text = canonicalize(value);
  expect(text).not.toBe(readFileSync(path, "utf8"));
  writeFileSync(path, text);
}

type Answers = { itemId: string; value: { number: string; unit: string }; note: string | null }[];

describe("a bag that the firm changed and signed again", () => {
  test("is found whole as long as nothing in it was changed", async () => {
    expect(await faultsAfter(() => undefined)).toEqual([]);
  });

  test("with another reading: the ledger holds what was read", async () => {
    const faults = await faultsAfter((copy) =>
      editJson(copy, "answers.json", (answers: Answers) => {
        answers.find(({ itemId }) => itemId === "pack_voltage_on")!.value.number = "53";
      }),
    );
    expect(faults[0]?.file).toBe("data/records/answers.json");
    expect(faults[0]?.problem).toMatch(/^value of [0-9a-f-]{36} is not what the ledger holds\.$/);
  });

  test("with another note: the ledger holds its hash", async () => {
    const faults = await faultsAfter((copy) =>
      editJson(copy, "answers.json", (answers: Answers) => {
        answers.find(({ note }) => note !== null)!.note = "read once";
      }),
    );
    expect(faults.map(({ problem }) => problem.split(" ")[0])).toEqual(["noteSha256"]);
  });

  test("without one answer: the ledger has it", async () => {
    const faults = await faultsAfter((copy) =>
      editJson(copy, "answers.json", (answers: Answers) => {
        answers.pop();
      }),
    );
    expect(faults[0]?.problem).toMatch(/is in the ledger and missing here\.$/);
  });

  test("with a better verdict: it does not come out again", async () => {
    const faults = await faultsAfter((copy) =>
      editJson(copy, "verdicts.json", (judged: { answers: { verdict: { outcome: string } }[] }) => {
        judged.answers.find(({ verdict }) => verdict.outcome === "fail")!.verdict.outcome = "pass";
      }),
    );
    expect(faults).toEqual([
      {
        file: "data/records/verdicts.json",
        problem: expect.stringMatching(
          /to pack_voltage_on is stated as pass, and comes out as fail: Read 36\.9 V/,
        ),
      },
    ]);
  });

  test("with a wider limit in the plan: the verdict does not come out again", async () => {
    const faults = await faultsAfter((copy) => {
      const path = join(copy, "data/records/plan.json");
      const text = readFileSync(path, "utf8");
      writeFileSync(path, text.replace('{"min":38}', '{"min":30}'));
      expect(readFileSync(path, "utf8")).not.toBe(text);
    });
    expect(faults.map(({ problem }) => problem).join("\n")).toContain("pack_voltage_on");
  });

  test("with another fact at the close-out: the ledger has sealed it", async () => {
    const faults = await faultsAfter((copy) =>
      editJson(copy, "close-out.json", (kept: { closeOuts: { facts: { code: string }[] }[] }) => {
        kept.closeOuts[0]!.facts[0]!.code = "passed-well";
      }),
    );
    expect(faults[0]?.problem).toContain("states other facts than entry");
  });

  test("with an instrument in date that was not: the verdict changes, and that shows", async () => {
    const faults = await faultsAfter((copy) =>
      editJson(
        copy,
        "facts.json",
        (facts: { instruments: { calibrations: { due: string }[] }[] }) => {
          for (const { calibrations } of facts.instruments) calibrations[0]!.due = "2020-01-01";
        },
      ),
    );
    expect(faults.map(({ file }) => file)).toContain("data/records/verdicts.json");
  });

  test("without a photo and its row: the ledger has it", async () => {
    const faults = await faultsAfter((copy) => {
      editJson(copy, "photos.json", (photos: never[]) => photos.splice(0));
      for (const name of filesIn(copy)) {
        if (name.startsWith("data/photos/")) rmSync(join(copy, name));
      }
    });
    expect(faults[0]).toMatchObject({ file: "data/records/photos.json" });
  });

  test("with ledger lines in another order: the chain is broken", async () => {
    const faults = await faultsAfter((copy) => swapLedgerLines(copy, chanceOf(7)));
    expect(faults[0]).toMatchObject({
      file: LEDGER,
      problem: expect.stringMatching(/^Entry \d+: /),
    });
  });
});
