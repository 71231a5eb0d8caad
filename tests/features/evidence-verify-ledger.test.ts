// The ledgers replayed, after what somebody with the database in hand could do to them.
import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyLedgers } from "../../src/features/ledger/verify-ledgers.ts";
import { makeCheckpoints } from "../../src/runs/ledger-checkpoint.ts";
import { addProvenJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import type { PracticeJob } from "../support/practice-job.ts";

const CLI = fileURLToPath(new URL("../../src/cli.ts", import.meta.url));
const FIRST = new Date("2026-11-25T17:00:00Z");
let stage: EvidenceStage;
let job: PracticeJob;
let superuser: pg.Client;

beforeAll(async () => {
  stage = await startEvidence(() => FIRST);
  job = await addProvenJob(stage.service);
  for (const day of [FIRST, new Date("2026-11-26T00:30:00Z")]) {
    await makeCheckpoints(stage.service.db, day);
  }
  superuser = new pg.Client({ connectionString: stage.service.ownerUrl });
  await superuser.connect();
});
afterAll(async () => {
  await superuser.end();
  await stage.stop();
});

describe("verify ledger", () => {
  const faults = async (): Promise<string[]> => {
    const told: string[] = [];
    await verifyLedgers(stage.service.db, stage.service.firm.firmId, (fault) => told.push(fault));
    return told;
  };

  /** Does `sql` with the guards off, looks, and puts everything back. */
  async function faultsAfter(sql: string, values: unknown[] = []): Promise<string[]> {
    const tables = ["ledger_text", "ledger_entry", "ledger_checkpoint"];
    for (const table of tables) {
      await superuser.query(`CREATE TABLE kept_${table} AS SELECT * FROM ${table}`);
    }
    await superuser.query("SET session_replication_role = replica");
    await superuser.query(sql, values);
    const told = await faults();
    for (const table of tables) {
      await superuser.query(`DELETE FROM ${table}`);
      await superuser.query(`INSERT INTO ${table} SELECT * FROM kept_${table}`);
      await superuser.query(`DROP TABLE kept_${table}`);
    }
    await superuser.query("SET session_replication_role = origin");
    return told;
  }

  test("finds nothing wrong where nothing is, and says how much it read", async () => {
    const { db, firm } = stage.service;
    const told: string[] = [];
    const figures = await verifyLedgers(db, firm.firmId, (fault) => told.push(fault));
    expect(told).toEqual([]);
    expect(figures).toMatchObject({ jobs: 1, checkpoints: 2 });
    expect(figures.entries).toBeGreaterThan(30);
  });

  test.each([
    [
      "a changed text",
      "UPDATE ledger_entry SET text = replace(text, 'pass', 'fail') WHERE job_id = $1 AND seq = 3",
      /^J-\w+: Entry 3: its text does not have the SHA-256/,
    ],
    [
      "a changed column",
      "UPDATE ledger_entry SET kind = 'answer.made' WHERE job_id = $1 AND seq = 3",
      /^J-\w+: Entry 3: its columns say something else/,
    ],
    [
      "an entry left out",
      "DELETE FROM ledger_entry WHERE job_id = $1 AND seq = 3",
      /^J-\w+: Entry 3: entry 4 stands in its place/,
    ],
    [
      "entries cut off at the end",
      "DELETE FROM ledger_entry WHERE job_id = $1 AND seq > 3",
      /^J-\w+: entry \d+ is missing, which (?:its close-out|a checkpoint) names/,
    ],
    [
      "a whole ledger gone",
      "DELETE FROM ledger_entry WHERE job_id = $1",
      /^J-\w+: entry \d+ is missing/,
    ],
    [
      "a changed text beside the ledger",
      "UPDATE ledger_text SET text = text || '.' WHERE job_id = $1 AND path = '/reason'",
      /^J-\w+: Entry \d+: the text \/reason is not the one that it names by its hash/,
    ],
    [
      "another salt",
      "UPDATE ledger_text SET salt = repeat('00', 32) WHERE job_id = $1 AND path = '/note'",
      /^J-\w+: Entry \d+: the text \/note is not the one that it names by its hash/,
    ],
    [
      "a text that was not erased but taken away",
      "DELETE FROM ledger_text WHERE job_id = $1",
      /^J-\w+: Entry \d+: the text \/\w+, which it names by its hash, is missing/,
    ],
    [
      "a text put in",
      `INSERT INTO ledger_text SELECT firm_id, job_id, 3, '/none', NULL, NULL FROM ledger_entry
        WHERE job_id = $1 LIMIT 1`,
      /^J-\w+: Entry 3: a text \/none is kept that it does not name/,
    ],
    [
      "a changed checkpoint",
      "UPDATE ledger_checkpoint SET text = replace(text, '\"jobs\":', '\"jobs\": ') WHERE $1 <> ''",
      /^Checkpoint 1 \(2026-11-25\): its text does not have the SHA-256/,
    ],
  ])("finds %s", async (_what, sql, words) => {
    const told = await faultsAfter(sql, [job.jobId]);
    expect(told[0]).toMatch(words);
    expect(await faults()).toEqual([]);
  });

  test("finds a ledger rewritten with all its hashes, by its close-out", async () => {
    await superuser.query("SELECT set_config('rewrite.job', $1, false)", [job.jobId]);
    const told = await faultsAfter(REWRITE);
    expect(told[0]).toMatch(/^J-\w+: Entry \d+: its hash is [0-9a-f]{64}, where /);
  });

  test("as a command: 0 where all is well, 1 with job and entry where not", async () => {
    const run = (...args: string[]): Promise<{ code: number; said: string }> =>
      new Promise((resolve) => {
        const { ownerUrl } = stage.service;
        const env = { PATH: process.env.PATH, DATABASE_URL: ownerUrl, DATA_DIR: stage.folder };
        execFile(process.execPath, [CLI, "verify", ...args], { env }, (error, stdout, stderr) =>
          resolve({ code: Number(error?.code ?? 0), said: `${stdout}${stderr}` }),
        );
      });
    const well = await run("ledger", "--firm", stage.service.firm.firmId);
    expect([well.code, well.said]).toEqual([0, expect.stringContaining("alder: 1 jobs")]);
    await superuser.query("SET session_replication_role = replica");
    await superuser.query("DELETE FROM ledger_entry WHERE job_id = $1 AND seq = 2", [job.jobId]);
    const broken = await run("ledger");
    expect([broken.code, broken.said]).toEqual([1, expect.stringContaining("Entry 2: entry 3")]);
  }, 180_000);
});

/** Every hash of the job made anew after a change to its second entry. */
const REWRITE = `
  DO $do$
  DECLARE
    e record;
    v_previous text := repeat('0', 64);
    v_text text;
  BEGIN
    FOR e IN SELECT * FROM ledger_entry
      WHERE job_id = current_setting('rewrite.job')::uuid ORDER BY seq LOOP
      v_text := replace(e.text, '"previous":"' || e.previous, '"previous":"' || v_previous);
      IF e.seq = 2 THEN v_text := replace(v_text, '"body":{', '"body":{"a":1,'); END IF;
      v_previous := encode(sha256(convert_to(v_text, 'UTF8')), 'hex');
      UPDATE ledger_entry SET text = v_text, sha256 = v_previous,
        previous = v_text::jsonb ->> 'previous'
        WHERE firm_id = e.firm_id AND job_id = e.job_id AND seq = e.seq;
    END LOOP;
  END $do$`;
