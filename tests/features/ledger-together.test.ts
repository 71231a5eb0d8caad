// What matters to the record and its ledger entry are one transaction: where the ledger refuses, no
// row of the write stays.
import pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  addProvenJob,
  downloadBag,
  type EvidenceStage,
  sendPhoto,
  startEvidence,
} from "../support/evidence-bag.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { addModel, install, type Made, moveUnit, receive, siteOf } from "../support/stock.ts";
import { torqueWork } from "../support/torque-work.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
let stage: EvidenceStage;
let superuser: pg.Client;
let open: PracticeJob;
let ready: PracticeJob;
let closed: PracticeJob;
let model: Made;
let fitted: Made;
let tool: { id: string };

beforeAll(async () => {
  stage = await startEvidence(() => NOW);
  const { service } = stage;
  [open, ready, closed] = [
    await addPracticeJob(service),
    await addPracticeJob(service),
    await addProvenJob(service),
  ];
  await post("installer", `/api/v1/jobs/${ready.jobId}/answers`, { answers: ready.answers() });
  model = await addModel(service);
  fitted = await receive(service, model.id);
  await install(service, fitted, siteOf(open));
  const work = torqueWork(service);
  tool = await work.tool();
  await work.closedJob(tool.id, "2026-03-05T09:00:00+00:00");
  superuser = new pg.Client({ connectionString: service.ownerUrl });
  await superuser.connect();
  await superuser.query(`
    CREATE FUNCTION refuse_entry() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN RAISE EXCEPTION 'the ledger takes nothing'; END $$;
    CREATE TRIGGER refuse_entry BEFORE INSERT ON ledger_entry
      FOR EACH ROW EXECUTE FUNCTION refuse_entry()`);
});
afterAll(async () => {
  await superuser.end();
  await stage.stop();
});

type Role = "installer" | "manager" | "office" | "auditor";
const as = (role: Role) => stage.service.as(stage.service.firm.people[role]);
const post = (role: Role, path: string, body: object = {}) => as(role).post(path).send(body);

const WRITES: Record<string, { table: string; write: () => Promise<unknown> }> = {
  "a reading": {
    table: "answer",
    write: async () =>
      post("installer", `/api/v1/jobs/${open.jobId}/answers`, {
        answers: open.answers().slice(0, 1),
      }),
  },
  "a photo": { table: "photo", write: () => sendPhoto(stage.service, open.jobId, 31) },
  "a concession": {
    table: "concession",
    write: async () => {
      const { itemId, subject } = open.answers()[0]!;
      await post("manager", `/api/v1/jobs/${open.jobId}/concessions`, {
        ...{ itemId, subject, reason: "Accepted in writing." },
      });
    },
  },
  "a close-out": {
    table: "close_out",
    write: async () => post("installer", `/api/v1/jobs/${ready.jobId}/close-out`),
  },
  "a reopening": {
    table: "reopening",
    write: async () =>
      post("manager", `/api/v1/jobs/${closed.jobId}/reopening`, { reason: "Misread." }),
  },
  "a firmware level": {
    table: "firmware_reading",
    write: async () =>
      post("installer", `/api/v1/units/${fitted.id}/firmware-readings`, {
        ...{ level: "1.2.0", readAt: "2026-11-25T10:00:00Z", jobId: open.jobId },
      }),
  },
  "a swap": {
    table: "unit_event",
    write: async () => {
      const fresh = await receive(stage.service, model.id);
      await moveUnit(stage.service, fitted, "swap", {
        ...{ newUnitId: fresh.id, reason: "Cell 7", jobId: open.jobId },
      });
    },
  },
  "a calibration finding": {
    table: "calibration",
    write: async () =>
      post("office", `/api/v1/instruments/${tool.id}/calibrations`, {
        ...{ calibratedOn: "2026-11-24", passed: false, certificate: "K-9" },
      }),
  },
  "an export": {
    table: "evidence_key",
    write: () => downloadBag(stage.service, open.jobId),
  },
};

/** Rows of the table, and of the ledger. */
async function counted(table: string): Promise<number[]> {
  const { rows } = await superuser.query<{ count: number; entries: number }>(
    `SELECT count(*)::int AS count, (SELECT count(*)::int FROM ledger_entry) AS entries
     FROM ${table}`,
  );
  return [rows[0]!.count, rows[0]!.entries];
}

test.each(Object.keys(WRITES))("%s stays out where the ledger refuses it", async (name) => {
  const { table, write } = WRITES[name]!;
  // What has to be in place before (a unit in stock) has no job, and no ledger.
  const before = await counted(table);
  await write().catch(() => undefined);
  const after = await counted(table);
  const stock = name === "a swap" ? 1 : 0;
  expect(after).toEqual([before[0]! + stock, before[1]]);
});

test("the same writes do go through where it does not", async () => {
  await superuser.query("DROP TRIGGER refuse_entry ON ledger_entry");
  for (const [name, { table, write }] of Object.entries(WRITES)) {
    const [rows, entries] = await counted(table);
    await write();
    const after = await counted(table);
    const isMore = [after[0]! > rows! || table === "evidence_key", after[1]! > entries!];
    expect([name, ...isMore]).toEqual([name, true, true]);
  }
});

test("a look by an auditor that cannot be kept is not shown", async () => {
  await superuser.query(`CREATE TRIGGER refuse_entry BEFORE INSERT ON ledger_entry
    FOR EACH ROW EXECUTE FUNCTION refuse_entry()`);
  const looks = await Promise.all(
    ["", "/snags", "/messages", "/differences"].map((part) =>
      as("auditor").get(`/api/v1/jobs/${ready.jobId}${part}`),
    ),
  );
  expect(looks.map(({ status }) => status)).toEqual([500, 500, 500, 500]);
  expect((await as("office").get(`/api/v1/jobs/${ready.jobId}`)).status).toBe(200);
});

test.each([
  "UPDATE ledger_entry SET at = at",
  "DELETE FROM ledger_entry",
  "TRUNCATE ledger_entry",
  "UPDATE ledger_checkpoint SET jobs = jobs",
  "DELETE FROM ledger_checkpoint",
  "ALTER TABLE ledger_entry DISABLE TRIGGER ALL",
  "DROP TABLE ledger_entry CASCADE",
])("the application's role is refused: %s", async (sql) => {
  const own = new pg.Client({ connectionString: stage.service.appUrl });
  await own.connect();
  await own.query("SELECT set_config('app.firm_id', $1, false)", [stage.service.firm.firmId]);
  await expect(own.query(sql)).rejects.toThrow(/permission denied|must be owner|kept as they/);
  await own.end();
});
