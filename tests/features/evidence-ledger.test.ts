// What goes on the ledger when the record is looked at, and the daily checkpoints.
import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { makeCheckpoints } from "../../src/runs/ledger-checkpoint.ts";
import {
  addProvenJob,
  downloadBag,
  type EvidenceStage,
  startEvidence,
} from "../support/evidence-bag.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

const FIRST = new Date("2026-11-25T17:00:00Z");
let now = FIRST;
let stage: EvidenceStage;
let job: PracticeJob;
let superuser: pg.Client;

beforeAll(async () => {
  stage = await startEvidence(() => now);
  job = await addProvenJob(stage.service);
  superuser = new pg.Client({ connectionString: stage.service.ownerUrl });
  await superuser.connect();
});
beforeEach(() => {
  now = FIRST;
});
afterAll(async () => {
  await superuser.end();
  await stage.stop();
});

const people = () => stage.service.firm.people;
const path = (own = job) => `/api/v1/jobs/${own.jobId}`;

async function entries(own: PracticeJob, kind: string) {
  const reply = await stage.service.as(people().manager).get(`${path(own)}/ledger?limit=500`);
  const texts = reply.body.items.map(({ text }: { text: string }) => JSON.parse(text));
  return texts.filter((entry: { kind: string }) => entry.kind === kind);
}

describe("a look at the record", () => {
  test("by an auditor is on the ledger once a day, by others not at all", async () => {
    const own = await addPracticeJob(stage.service);
    const looks = ["", "/ledger", "/answers", "/evaluation", "/photos", "/concessions"];
    for (const { token } of [people().auditor, people().office]) {
      for (const look of looks) {
        expect((await stage.service.as({ token }).get(path(own) + look)).status).toBe(200);
      }
    }
    const auditor = { body: { personId: people().auditor.id } };
    expect(await entries(own, "record.viewed")).toMatchObject([auditor]);
    now = new Date("2026-11-26T09:00:00Z");
    const both = [1, 2].map(() => stage.service.as(people().auditor).get(path(own)));
    await Promise.all(both);
    expect(await entries(own, "record.viewed")).toMatchObject([auditor, auditor]);
  });

  test("by an auditor that was refused is not", async () => {
    const own = await addPracticeJob(stage.service);
    const refused = await stage.service.as(people().auditor).post(`${path(own)}/close-out`);
    const empty = await stage.service.as(people().auditor).get(`${path(own)}/close-out`);
    expect([refused.status, empty.status]).toEqual([403, 404]);
    expect(await entries(own, "record.viewed")).toEqual([]);
  });

  test("an export is on the ledger with what it covers and whose key signs it", async () => {
    const own = await addPracticeJob(stage.service);
    const answers = own.answers().slice(0, 2);
    await stage.service
      .as(people().installer)
      .post(`${path(own)}/answers`)
      .send({ answers });
    const taken = await entries(own, "answer.taken");
    await downloadBag(stage.service, own.jobId);
    await downloadBag(stage.service, own.jobId);
    const body = { throughSeq: taken.length, personId: people().auditor.id };
    expect(await entries(own, "evidence.exported")).toMatchObject([{ body }, { body }]);
  });
});

describe("the close-out", () => {
  test("seals the facts that its verdicts rest on", async () => {
    const [closed] = await entries(job, "job.closed");
    expect(closed.body.context.units).toHaveLength(job.packIds.length);
    expect(closed.body.context.photosHeld).toHaveLength(1);
    expect(closed.body.context.now).toBe(FIRST.toISOString());
  });
});

describe("the daily checkpoint", () => {
  test("is made once a day however often asked for, chained to the one before", async () => {
    const { db } = stage.service;
    const made = await Promise.all([1, 2, 3].map(() => makeCheckpoints(db, FIRST)));
    expect(made.reduce((sum, count) => sum + count)).toBe(1);
    const next = new Date("2026-11-26T00:30:00Z");
    expect(await makeCheckpoints(db, next)).toBe(1);
    expect(await makeCheckpoints(db, FIRST)).toBe(0);
    const reply = await stage.service.as(people().auditor).get("/api/v1/ledger-checkpoints");
    const [first, second] = reply.body.items;
    expect(reply.body.items).toHaveLength(2);
    expect([first.day, second.day]).toEqual(["2026-11-25", "2026-11-26"]);
    expect(first.previous).toBe("0".repeat(64));
    expect(second.previous).toBe(first.sha256);
  });

  test("is neither changed nor removed, not even by the tables' owner", async () => {
    const tries = ["UPDATE ledger_checkpoint SET jobs = 0", "DELETE FROM ledger_checkpoint"];
    for (const sql of [...tries, "TRUNCATE ledger_checkpoint"]) {
      await expect(superuser.query(sql)).rejects.toThrow("kept as they were written");
    }
  });

  test("that does not continue the chain is refused by the database", async () => {
    const insert = superuser.query(
      `INSERT INTO ledger_checkpoint (firm_id, day, number, jobs, text, previous, sha256)
       SELECT firm_id, day + 1, number + 1, jobs, text, sha256, sha256 FROM ledger_checkpoint
       ORDER BY number DESC LIMIT 1`,
    );
    await expect(insert).rejects.toThrow("does not continue the chain");
  });
});
