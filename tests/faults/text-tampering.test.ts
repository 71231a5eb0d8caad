// The texts beside a ledger, changed in every way, and signed anew by whoever changed them.
import { cpSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { chanceOf, SEED } from "../support/chance.ts";
import {
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import {
  missingTools,
  readmeScript,
  resign,
  runReadme,
  strangersKey,
} from "../support/evidence-tampering.ts";
import { signedJob } from "../support/signed-job.ts";
import { TEXT_EDITS, TEXTS } from "../support/text-tampering.ts";

let stage: EvidenceStage;
let folder: string;
let trusted: string;

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  const { jobId } = await signedJob(stage.service);
  folder = await unpack(await downloadBag(stage.service, jobId), stage.folder);
  trusted = await certificatesOf(stage.service);
  writeFileSync(join(stage.folder, "firm.pem"), trusted);
});
afterAll(() => stage.stop());

const changedBag = async (edit: (typeof TEXT_EDITS)[string]): Promise<string> => {
  const changed = join(stage.folder, "changed");
  rmSync(changed, { recursive: true, force: true });
  cpSync(folder, changed, { recursive: true });
  await edit(changed, chanceOf(SEED));
  return changed;
};
const EDITS = Object.entries(TEXT_EDITS);

test.for(EDITS)("verify and the manifests notice it: %s", async ([, edit], { skip }) => {
  const changed = await changedBag(edit);
  expect((await verifyBag(changed, trusted)).faults).not.toEqual([]);
  const missing = missingTools();
  skip(missing.length > 0, `this machine has no ${missing.join(", ")}`);
  const { whole } = runReadme(readmeScript(changed), changed, join(stage.folder, "firm.pem"));
  expect(whole).toBe(false);
});

// What is missing was not erased, or the ledger would say so.
test.for(EDITS)("signed anew, the ledger alone still shows it: %s", async ([, edit]) => {
  const changed = await changedBag(edit);
  await resign(changed, await strangersKey());
  const files = (await verifyBag(changed)).faults.map(({ file }) => file);
  expect(new Set(files)).toEqual(new Set([TEXTS]));
});
