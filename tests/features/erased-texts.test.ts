// What people wrote on a job is in the ledger by its salted hash alone: it can be taken away, from
// every table, and the record verifies before and after (Regulation (EU) 2016/679, Article 17).
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { inFirm } from "../../src/db/scope.ts";
import { verifyLedgers } from "../../src/features/ledger/verify-ledgers.ts";
import {
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { missingTools, readmeScript, runReadme } from "../support/evidence-tampering.ts";
import { fileOf, readPdf } from "../support/read-pdf.ts";
import { expectStatus, signedJob, WRITTEN } from "../support/signed-job.ts";
import { tablesWith } from "../support/tables-with.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const WORDS = Object.values(WRITTEN);
let stage: EvidenceStage;
let jobId: string;
let siteId: string;
let customerId: string;
let clear: { jobId: string; seq: number };

beforeAll(async () => {
  stage = await startEvidence(() => NOW);
  const job = await signedJob(stage.service);
  ({ jobId, siteId } = job);
  customerId = (await as("office").get(`/api/v1/sites/${siteId}`)).body.customerId;
  clear = { jobId: job.olderJobId, seq: job.olderSeq };
});
afterAll(() => stage.stop());

const as = (role: "owner" | "office" | "manager" | "installer") =>
  stage.service.as(stage.service.firm.people[role]);
const ledgerItems = async (id: string) =>
  (await as("office").get(`/api/v1/jobs/${id}/ledger?limit=500`)).body.items as {
    seq: number;
    text: string;
    texts: { path: string; salt: string | null; text: string | null }[];
  }[];
const bagOf = async (id: string) => unpack(await downloadBag(stage.service, id), stage.folder);
const faultsOf = async (folder: string) =>
  (await verifyBag(folder, await certificatesOf(stage.service))).faults;
const recordPdf = async (language: string) => {
  const path = `/api/v1/jobs/${jobId}/commissioning-record.pdf?language=${language}`;
  return (await readPdf(await fileOf(as("office").get(path)))).text;
};

async function replay(): Promise<string[]> {
  const told: string[] = [];
  await verifyLedgers(stage.service.db, stage.service.firm.firmId, (fault) => told.push(fault));
  return told;
}

describe("what people write on a job", () => {
  test("is in the ledger by its hash, and beside it with a salt of its own", async () => {
    const tables = await tablesWith(stage.service.ownerUrl, WORDS);
    expect(tables).toContain("ledger_text");
    expect(tables).not.toContain("ledger_entry");
    const entries = [...(await ledgerItems(jobId)), ...(await ledgerItems(clear.jobId))];
    const texts = entries.flatMap((entry) => entry.texts);
    for (const word of WORDS) expect(texts.some(({ text }) => text?.includes(word))).toBe(true);
    expect(new Set(texts.map(({ salt }) => salt)).size).toBe(texts.length);
    expect(texts.filter(({ salt }) => !/^[0-9a-f]{64}$/.test(salt ?? ""))).toEqual([]);
  });

  test("is read back on the job's pages and papers", async () => {
    const history = await as("office").get(`/jobs/${jobId}/history`);
    expect(history.text).toContain(WRITTEN.concession);
    expect(history.text).toContain(WRITTEN.reopening);
    expect(await recordPdf("en")).toContain(WRITTEN.signature.replaceAll(" ", ""));
  });

  test("goes with the bag, which says how to check one text by hand", async ({ skip }) => {
    const folder = await bagOf(jobId);
    expect(await faultsOf(folder)).toEqual([]);
    const lines = readFileSync(join(folder, "data/ledger/texts.jsonl"), "utf8").split("\n");
    const line = lines.find((one) => one.includes(WRITTEN.concession)) ?? "";
    const { entry, path, salt, text } = JSON.parse(line);
    expect(path).toBe("/reason");
    const entries = readFileSync(join(folder, "data/ledger/entries.jsonl"), "utf8").split("\n");
    const { salted } = JSON.parse(entries[entry - 1] ?? "").body.reason;
    const readme = readFileSync(join(folder, "README.txt"), "utf8");
    const command = readme.split("\n").find((one) => one.includes("SALT 'TEXT'")) ?? "";
    const missing = missingTools();
    skip(missing.length > 0, `this machine has no ${missing.join(", ")}`);
    const said = runReadme(command.replace("SALT", salt).replace("TEXT", text), folder, "").said;
    expect(said).toBe(`${salted}  -\n`);
    expect(runReadme(readmeScript(folder), folder, "").whole).toBe(true);
  });

  test("is altered, deleted, added or erased by no statement of the application", async () => {
    const { firmId } = stage.service.firm;
    const refused = async (sql: string): Promise<unknown> =>
      inFirm(stage.service.db, firmId, (tx) => tx.$executeRawUnsafe(sql)).then(
        () => "done",
        (error: Error) => /permission denied|names no such text/.exec(error.message)?.[0],
      );
    const of = `WHERE job_id = '${jobId}'`;
    const place = `'${firmId}', '${jobId}', 1, '/reason', '${"0".repeat(64)}', 'Put in'`;
    for (const sql of [
      `UPDATE ledger_text SET text = 'Changed' ${of}`,
      `UPDATE ledger_text SET text = NULL, salt = NULL ${of}`,
      `DELETE FROM ledger_text ${of}`,
      "TRUNCATE ledger_text",
      `UPDATE answer SET note = 'Changed' ${of}`,
      `SELECT erase_texts('${firmId}', ARRAY['${jobId}']::uuid[])`,
      `SELECT erase_words('${firmId}', ARRAY['Row'])`,
    ]) {
      expect([sql, await refused(sql)]).toEqual([sql, "permission denied"]);
      const done = sql.replace(/^SELECT/, "PERFORM");
      const pretending = `DO $do$ BEGIN SET LOCAL app.erasing = 'on'; ${done}; END $do$`;
      expect([pretending, await refused(pretending)]).toEqual([pretending, "permission denied"]);
    }
    const columns = "firm_id, job_id, seq, path, salt, text";
    const added = `INSERT INTO ledger_text (${columns}) VALUES (${place})`;
    expect(await refused(added)).toBe("names no such text");
    const empty = added.replace(/'0{64}', 'Put in'/, "NULL, NULL");
    expect([empty === added, await refused(empty)]).toEqual([false, "names no such text"]);
  });

  test("is kept from its owner too, but for an erasure", async () => {
    const owner = new pg.Client({ connectionString: stage.service.ownerUrl });
    await owner.connect();
    for (const sql of ["UPDATE ledger_text SET text = 'Changed'", "DELETE FROM ledger_text"]) {
      await expect(owner.query(sql)).rejects.toThrow("are kept as they were written");
    }
    await owner.end();
  });
});

describe("once the customer is erased", () => {
  let before: string;
  beforeAll(async () => {
    before = await bagOf(jobId);
    for (const path of [`/api/v1/sites/${siteId}`, `/api/v1/customers/${customerId}`]) {
      const { headers } = await as("office").get(path);
      const etag = headers.etag as string;
      await expectStatus(
        200,
        as("office").patch(path).set("if-match", etag).send({ archived: true }),
      );
    }
    const ask = { reason: "Asked for by letter" };
    await expectStatus(201, as("owner").post(`/api/v1/customers/${customerId}/erasure`).send(ask));
  });

  test("no table holds the words any more, and the ledgers replay", async () => {
    expect(await tablesWith(stage.service.ownerUrl, WORDS)).toEqual([]);
    expect(await replay()).toEqual([]);
  });

  test("bags from before and after verify; the later one says how much is gone", async () => {
    const after = await bagOf(jobId);
    expect([await faultsOf(before), await faultsOf(after)]).toEqual([[], []]);
    const { figures } = await verifyBag(after);
    expect(figures.withheld).toBeGreaterThan(6);
    expect((await verifyBag(before)).figures.withheld).toBe(0);
    const cli = fileURLToPath(new URL("../../src/cli.ts", import.meta.url));
    const { stdout } = spawnSync(process.execPath, [cli, "verify", after], { encoding: "utf8" });
    expect(stdout).toContain(`Texts erased: ${figures.withheld}.`);
    const missing = missingTools();
    if (missing.length === 0) expect(runReadme(readmeScript(after), after, "").whole).toBe(true);
  });

  test("pages, papers and the ledger's list say so, in both languages", async () => {
    const history = await as("office").get(`/jobs/${jobId}/history`);
    expect(history.text).toContain("erased");
    for (const word of WORDS) expect(history.text).not.toContain(word);
    const texts = (await ledgerItems(jobId)).flatMap((entry) => entry.texts);
    const kept = texts.filter(({ text }) => text !== null);
    // What the firm's own people signed is no customer's.
    expect(kept).toMatchObject([
      { path: "/bodySha256" },
      { path: "/value/name", text: "installer person" },
    ]);
    expect(await recordPdf("en")).toContain("erased");
    expect(await recordPdf("es")).toContain("borrado");
  });

  test("an entry of old that holds words in clear stays, and so does its record", async () => {
    const folder = await bagOf(clear.jobId);
    expect(await faultsOf(folder)).toEqual([]);
    const entry = (await ledgerItems(clear.jobId)).find(({ seq }) => seq === clear.seq);
    expect(JSON.parse(entry?.text ?? "{}").body.reason).toBe("Kept from before");
    const concessions = readFileSync(join(folder, "data/records/concessions.json"), "utf8");
    expect(concessions).toContain("Kept from before");
  });
});
