// Entries of the ledger from before texts were salted hold a note's plain hash: the note goes with
// an erasure, the hash stays, and what verifies says so (Regulation (EU) 2016/679, Article 17).
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { verifyLedgers } from "../../src/features/ledger/verify-ledgers.ts";
import { say } from "../../src/language/say.ts";
import {
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { expectStatus, OLD_NOTE, signedJob } from "../support/signed-job.ts";
import { tablesWith } from "../support/tables-with.ts";

let stage: EvidenceStage;
let jobId: string;
let siteId: string;
let customerId: string;
let before: string;
beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  const job = await signedJob(stage.service);
  ({ siteId, olderJobId: jobId } = job);
  customerId = (await as("office").get(`/api/v1/sites/${siteId}`)).body.customerId;
  before = await bag();
});
afterAll(() => stage.stop());

const as = (role: "owner" | "office") => stage.service.as(stage.service.firm.people[role]);
const bag = async () => unpack(await downloadBag(stage.service, jobId), stage.folder);
const notesIn = (folder: string) =>
  JSON.parse(readFileSync(join(folder, "data/records/answers.json"), "utf8")).map(
    ({ note }: { note: string | null }) => note,
  );

test("the page says what of it stays, in both languages", async () => {
  const path = `/customers/${customerId}/erasure`;
  const page = await as("owner").get(path).set("accept", "text/html");
  expect(page.text).toContain("The plain hash of 1 note of old; the words go");
  expect(page.text).toContain("1 entry of the ledger from the time when names and reasons");
  expect(say("es", "privacy.staysHashes", { count: 2 })).toContain("2 notas antiguas");
});

test("the note goes, its hash stays, and bags from before and after verify", async () => {
  expect(notesIn(before)).toEqual([OLD_NOTE]);
  const office = as("office");
  for (const [url, version] of await stillOpen()) {
    const archive = office.patch(url).set("if-match", `"${version}"`).send({ archived: true });
    await expectStatus(200, archive);
  }
  const ask = { reason: "Asked for by letter" };
  await expectStatus(201, as("owner").post(`/api/v1/customers/${customerId}/erasure`).send(ask));
  expect(await tablesWith(stage.service.ownerUrl, [OLD_NOTE])).toEqual([]);
  const after = await bag();
  expect(notesIn(after)).toEqual(["Erased"]);
  const certificates = await certificatesOf(stage.service);
  for (const folder of [before, after]) {
    expect((await verifyBag(folder, certificates)).faults).toEqual([]);
  }
  const entries = readFileSync(join(after, "data/ledger/entries.jsonl"), "utf8");
  expect(entries).toContain(createHash("sha256").update(OLD_NOTE).digest("hex"));
  // The reason of the cancellation is the other text that is gone.
  expect((await verifyBag(after)).figures.withheld).toBe(2);
  const told: string[] = [];
  const { db, firm } = stage.service;
  await verifyLedgers(db, firm.firmId, (fault) => told.push(fault));
  expect(told).toEqual([]);
});

async function stillOpen(): Promise<[string, number][]> {
  const { body } = await as("office").get(`/api/v1/sites/${siteId}`);
  const customer = await as("office").get(`/api/v1/customers/${customerId}`);
  return [
    [`/api/v1/sites/${siteId}`, body.version],
    [`/api/v1/customers/${customerId}`, customer.body.version],
  ];
}
