import pg from "pg";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyChain } from "../../src/domain/evidence/ledger-chain.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob, type WireAnswer } from "../support/practice-job.ts";

let service: TestService;
const NOW = new Date("2026-11-25T17:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const installer = () => service.as(service.firm.people.installer);
const manager = () => service.as(service.firm.people.manager);
const submit = (job: PracticeJob, answers: WireAnswer[]) =>
  installer().post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers });
const close = (job: PracticeJob) => installer().post(`/api/v1/jobs/${job.jobId}/close-out`);

async function ledgerOf(job: PracticeJob) {
  const reply = await installer().get(`/api/v1/jobs/${job.jobId}/ledger?limit=500`);
  return reply.body.items as { seq: number; text: string; sha256: string }[];
}

/** Direct SQL as the application's own role, inside the firm. */
async function asApplication(sql: string, values: unknown[] = []): Promise<string> {
  const client = new pg.Client({ connectionString: service.appUrl });
  await client.connect();
  try {
    await client.query("BEGIN");
    await client.query("SELECT set_config('app.firm_id', $1, true)", [service.firm.firmId]);
    const { rowCount } = await client.query(sql, values);
    await client.query("COMMIT");
    return `changed ${rowCount}`;
  } catch (error) {
    return (error as Error).message;
  } finally {
    await client.end();
  }
}

describe("close-out", () => {
  test("is refused with every blocker while answers are missing, and closes when all pass", async () => {
    const job = await addPracticeJob(service);
    const refused = await close(job);
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/close-out-blocked"]);
    expect(refused.body.blockers).toHaveLength(job.answers().length);

    const kept = await submit(job, job.answers());
    expect(kept.status).toBe(201);
    expect(
      kept.body.answers.every((answer: { verdict: { clears: boolean } }) => answer.verdict.clears),
    ).toBe(true);

    const closed = await close(job);
    expect(closed.status).toBe(201);
    const ledger = await ledgerOf(job);
    expect(closed.body.ledgerSha256).toBe(ledger.at(-1)?.sha256);
    expect(verifyChain(ledger, closed.body.ledgerSha256)).toMatchObject({ ok: true });
    const { rows } = await service.db.pool.query("SELECT 1");
    expect(rows).toHaveLength(1);
    const states = await asApplication(
      "SELECT FROM unit WHERE state = 'installed' AND site_id = $1",
      [job.siteId],
    );
    expect(states).toBe("changed 2");
  });

  test("names the item, the unit, what was read and what clears it", async () => {
    const job = await addPracticeJob(service);
    const answers = job
      .answers()
      .map((answer) =>
        answer.itemId === "pack_voltage_on" && answer.subject === job.packIds[1]
          ? { ...answer, value: { number: "36,9", unit: "V" } }
          : answer,
      );
    const kept = await submit(job, answers);
    const verdict = kept.body.answers.find(
      (answer: { verdict: { outcome: string } }) => answer.verdict.outcome === "fail",
    );
    expect(verdict.verdict.sentence).toBe("Read 36.9 V; needed at least 38 V.");
    const { blockers } = (await close(job)).body;
    expect(blockers).toHaveLength(1);
    expect(blockers[0]).toMatchObject({
      itemId: "pack_voltage_on",
      unitId: job.packIds[1],
      code: "failed",
      sentence: "Read 36.9 V; needed at least 38 V.",
      concedable: true,
    });
  });

  test("counts the last attempt and keeps the first", async () => {
    const job = await addPracticeJob(service);
    const low = job
      .answers()
      .map((answer) =>
        answer.itemId === "wall_gap" ? { ...answer, value: { number: 8, unit: "mm" } } : answer,
      );
    await submit(job, low);
    const again = job
      .answers()
      .filter((answer) => answer.itemId === "wall_gap")
      .map((answer) => ({ ...answer, takenAt: "2026-11-25T15:00:00+00:00" }));
    await submit(job, again);
    expect((await close(job)).status).toBe(201);
    const list = await installer().get(`/api/v1/jobs/${job.jobId}/answers?itemId=wall_gap`);
    expect(
      list.body.items.map((item: { verdict: { outcome: string } }) => item.verdict.outcome),
    ).toEqual(["fail", "fail", "pass", "pass"]);
  });
});

describe("an answer", () => {
  test("sent again is kept once, and its stored verdict comes back, after the close-out too", async () => {
    const job = await addPracticeJob(service);
    const answers = job.answers();
    const sends = await Promise.all([
      submit(job, answers),
      submit(job, answers),
      submit(job, answers),
    ]);
    expect(sends.map((reply) => reply.status)).toEqual([201, 201, 201]);
    expect((await close(job)).status).toBe(201);
    const late = await submit(job, answers);
    expect(late.status).toBe(201);
    expect(late.body.answers.every((answer: { repeated: boolean }) => answer.repeated)).toBe(true);
    const fresh = await submit(job, job.answers());
    expect([fresh.status, fresh.body.type]).toEqual([409, "/problems/job-not-open"]);
    const ledger = await ledgerOf(job);
    expect(ledger.filter((entry) => entry.text.includes('"kind":"answer.taken"'))).toHaveLength(
      answers.length,
    );
  });

  test("under an id used for other content is refused, and the first stands", async () => {
    const job = await addPracticeJob(service);
    const [first] = job.answers() as [WireAnswer];
    await submit(job, [first]);
    const changed = await submit(job, [{ ...first, value: { text: "KH0000000" } }]);
    expect([changed.status, changed.body.type]).toEqual([422, "/problems/id-reused"]);
  });

  test.each([
    ["a wrong unit", "pack_voltage_on", { number: 40, unit: "mm" }, "/value/unit"],
    ["no unit known to anyone", "pack_voltage_on", { number: 40, unit: "zap" }, "/value/unit"],
    ["text for a number", "pack_voltage_on", { number: "plenty", unit: "V" }, "/value/number"],
    ["NaN", "pack_voltage_on", { number: "NaN", unit: "V" }, "/value/number"],
    ["10^400", "pack_voltage_on", { number: "1e400", unit: "V" }, "/value/number"],
    [
      "a fastener that is not there",
      "shelf_bolts",
      { points: [9], setting: { number: 6, unit: "N·m" } },
      "/value/points/0",
    ],
    ["the shape of another kind", "holes_above", { done: true }, "/value/done"],
  ])(
    "with %s is refused with its place, and the whole batch with it",
    async (_name, itemId, value, place) => {
      const job = await addPracticeJob(service);
      const answers = job.answers();
      const index = answers.findIndex((answer) => answer.itemId === itemId);
      answers[index] = { ...answers[index]!, value };
      const reply = await submit(job, answers);
      expect(reply.status).toBe(422);
      expect(reply.body.errors[0].pointer).toBe(`/body/answers/${index}${place}`);
      expect(reply.body.errors[0].detail.length).toBeGreaterThan(10);
      const list = await installer().get(`/api/v1/jobs/${job.jobId}/answers`);
      expect(list.body.items).toEqual([]);
    },
  );

  test("to an item the plan does not have, or for a unit not on the job, is refused", async () => {
    const job = await addPracticeJob(service);
    const [first] = job.answers() as [WireAnswer];
    const unknown = await submit(job, [{ ...first, itemId: "nothing_here" }]);
    expect(unknown.body.errors[0].pointer).toBe("/body/answers/0/itemId");
    const elsewhere = await submit(job, [{ ...first, subject: uuidv7() }]);
    expect(elsewhere.body.errors[0].pointer).toBe("/body/answers/0/subject");
  });

  test("to another firm's job does not arrive", async () => {
    const job = await addPracticeJob(service);
    const other = await service.addFirm(`birch${Date.now()}`);
    const reply = await service
      .as(other.people.installer)
      .post(`/api/v1/jobs/${job.jobId}/answers`)
      .send({ answers: job.answers() });
    expect(reply.status).toBe(404);
  });
});

describe("a request that cannot be read", () => {
  const raw = (job: PracticeJob, body: Buffer | string) =>
    installer()
      .post(`/api/v1/jobs/${job.jobId}/answers`)
      .set("content-type", "application/json")
      .serialize((bytes) => bytes)
      .send(body as string);

  test("because it has 20 MB is refused as too large", async () => {
    const job = await addPracticeJob(service);
    const reply = await raw(job, `{"answers":"${"x".repeat(20 * 1024 * 1024)}"}`);
    expect([reply.status, reply.body.type]).toEqual([413, "/problems/body-too-large"]);
  });

  test("because its UTF-8 is broken or it is not JSON is refused as unreadable", async () => {
    const job = await addPracticeJob(service);
    const [first] = job.answers() as [WireAnswer];
    const text = JSON.stringify({ answers: [{ ...first, note: "Marke" }] });
    const at = Buffer.from(text).indexOf("Marke");
    const broken = Buffer.from(text);
    broken[at + 1] = 0xff;
    for (const body of [broken, '{"answers":', '{"__proto__":{"x":1},"answers":[]}']) {
      const reply = await raw(job, body as string);
      expect([reply.status, reply.body.type]).toEqual([400, "/problems/unreadable-body"]);
    }
  });
});

describe("a concession", () => {
  const grant = (job: PracticeJob, body: object) =>
    manager().post(`/api/v1/jobs/${job.jobId}/concessions`).send(body);

  async function jobWithNarrowGap() {
    const job = await addPracticeJob(service);
    const answers = job
      .answers()
      .map((answer) =>
        answer.itemId === "wall_gap" && answer.subject === job.packIds[0]
          ? { ...answer, value: { number: 8.5, unit: "mm" } }
          : answer,
      );
    await submit(job, answers);
    return job;
  }

  test("by a manager releases the hold point, and the record shows it as conceded", async () => {
    const job = await jobWithNarrowGap();
    const place = { itemId: "wall_gap", subject: job.packIds[0] };
    expect((await grant(job, { ...place, reason: "Niche; air drawn from above." })).status).toBe(
      201,
    );
    const closed = await close(job);
    expect(closed.status).toBe(201);
    const fact = closed.body.facts.find(
      (entry: { itemId: string; subject: string }) =>
        entry.itemId === "wall_gap" && entry.subject === job.packIds[0],
    );
    expect(fact.outcome).toBe("conceded");
  });

  test("that was revoked releases nothing", async () => {
    const job = await jobWithNarrowGap();
    const place = { itemId: "wall_gap", subject: job.packIds[0] };
    const granted = await grant(job, { ...place, reason: "For now." });
    await manager().post(`/api/v1/jobs/${job.jobId}/concessions/${granted.body.id}/revocation`);
    expect((await close(job)).status).toBe(409);
  });

  test("is refused for what is safety-critical, to an installer, and past its day", async () => {
    const job = await jobWithNarrowGap();
    const critical = await grant(job, { itemId: "earth_screw", reason: "No wrench today." });
    expect([critical.status, critical.body.type]).toEqual([409, "/problems/conflict"]);
    const byInstaller = await installer()
      .post(`/api/v1/jobs/${job.jobId}/concessions`)
      .send({ itemId: "wall_gap", subject: job.packIds[0], reason: "I say so." });
    expect(byInstaller.status).toBe(403);
    const past = await grant(job, {
      itemId: "wall_gap",
      subject: job.packIds[0],
      reason: "Too late.",
      expiresOn: "2026-11-24",
    });
    expect(past.body.errors[0].pointer).toBe("/body/expiresOn");
  });

  test("is refused to the manager who took the reading, by the database too", async () => {
    const job = await addPracticeJob(service);
    const gap = job.answers().filter((answer) => answer.itemId === "wall_gap");
    await manager().post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers: gap });
    const place = { itemId: "wall_gap", subject: job.packIds[0] };
    expect((await grant(job, { ...place, reason: "Mine." })).status).toBe(409);
    const direct = await asApplication(
      `INSERT INTO concession (firm_id, id, job_id, item_id, subject, reason, granted_by_id)
       VALUES ($1, gen_random_uuid(), $2, 'wall_gap', $3, 'Mine', $4)`,
      [service.firm.firmId, job.jobId, job.packIds[0], service.firm.people.manager.id],
    );
    expect(direct).toContain("did not take the reading");
  });
});

describe("a closed job", () => {
  async function closedJob() {
    const job = await addPracticeJob(service);
    await submit(job, job.answers());
    expect((await close(job)).status).toBe(201);
    return job;
  }

  test("is reopened by a manager with a reason, and both stand in the ledger", async () => {
    const job = await closedJob();
    const byInstaller = await installer()
      .post(`/api/v1/jobs/${job.jobId}/reopening`)
      .send({ reason: "x" });
    expect(byInstaller.status).toBe(403);
    const bare = await manager().post(`/api/v1/jobs/${job.jobId}/reopening`).send({ reason: "  " });
    expect(bare.status).toBe(422);
    const reopened = await manager()
      .post(`/api/v1/jobs/${job.jobId}/reopening`)
      .send({ reason: "Wrong pack recorded." });
    expect(reopened.status).toBe(201);
    const kinds = (await ledgerOf(job)).map((entry) => JSON.parse(entry.text).kind);
    expect(kinds.slice(-2)).toEqual(["job.closed", "job.reopened"]);
    expect((await close(job)).status).toBe(201);
  });

  test("cannot be made by direct SQL without a passing evaluation", async () => {
    const { jobId } = await addPracticeJob(service);
    const plain = await asApplication("UPDATE job SET state = 'closed' WHERE id = $1", [jobId]);
    expect(plain).not.toContain("changed");
    const other = await closedJob();
    const borrowed = await asApplication(
      `UPDATE job SET state = 'closed', close_out_id = (SELECT close_out_id FROM job WHERE id = $2)
       WHERE id = $1`,
      [jobId, other.jobId],
    );
    expect(borrowed).toContain("there is no evaluation of it");
    const forged = await asApplication(
      `WITH c AS (INSERT INTO close_out (firm_id, id, job_id, plan_version_id, rule_version, passed, facts,
         answers_through, ledger_seq, ledger_sha256, closed_by_id)
       SELECT firm_id, gen_random_uuid(), id, plan_version_id, 'gate/1', true, '[]', 0, 1, repeat('0', 64), $2
       FROM job WHERE id = $1 RETURNING id, job_id)
       SELECT * FROM c`,
      [jobId, service.firm.people.installer.id],
    );
    expect(forged).toBe("changed 1");
    const closedByForgery = await asApplication(
      `UPDATE job SET state = 'closed',
         close_out_id = (SELECT id FROM close_out WHERE job_id = $1) WHERE id = $1`,
      [jobId],
    );
    expect(closedByForgery).toContain(
      "the job cannot be closed: the ledger does not hold the close-out",
    );
  });

  test("keeps its evidence: the application's role can neither change nor delete it", async () => {
    const job = await closedJob();
    for (const table of ["answer", "ledger_entry", "close_out"]) {
      const change = await asApplication(
        `UPDATE ${table} SET firm_id = firm_id WHERE job_id = $1`,
        [job.jobId],
      );
      const removal = await asApplication(`DELETE FROM ${table} WHERE job_id = $1`, [job.jobId]);
      expect([change, removal].map((text) => /denied|kept/.test(text))).toEqual([true, true]);
    }
    const owner = new pg.Client({ connectionString: service.ownerUrl });
    await owner.connect();
    await expect(owner.query("DELETE FROM ledger_entry")).rejects.toThrow(
      "kept as they were written",
    );
    await owner.end();
  });

  test("has a ledger that nothing can be slipped into", async () => {
    const job = await closedJob();
    const slipped = await asApplication(
      `INSERT INTO ledger_entry (firm_id, job_id, seq, kind, at, text, previous, sha256)
       SELECT firm_id, job_id, seq + 1, kind, at, text, sha256, repeat('a', 64) FROM ledger_entry
       WHERE job_id = $1 ORDER BY seq DESC LIMIT 1`,
      [job.jobId],
    );
    expect(slipped).toContain("does not continue the ledger");
  });
});
