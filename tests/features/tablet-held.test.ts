import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob, type WireAnswer } from "../support/practice-job.ts";
import { ledgerOf, nextOf } from "../support/reading.ts";
import { heldOnClosedJob, outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const manager = () => service.as(service.firm.people.manager);
const firstTo = (job: PracticeJob, itemId: string): WireAnswer =>
  job.answers().find((answer) => answer.itemId === itemId)!;

const decide = (opId: string, verb: "application" | "dismissal", body?: object) =>
  office().post(`/api/v1/held-operations/${opId}/${verb}`).send(body);

const reopen = (job: PracticeJob) =>
  manager().post(`/api/v1/jobs/${job.jobId}/reopening`).send({ reason: "A reading came late." });

describe("a held operation", () => {
  test("is listed with its reason, its person and its job", async () => {
    const { job, op } = await heldOnClosedJob(service);
    const list = await office().get(`/api/v1/held-operations?jobId=${job.jobId}`);
    expect(list.status, JSON.stringify(list.body)).toBe(200);
    expect(list.body.items).toEqual([
      expect.objectContaining({
        opId: op.opId,
        jobId: job.jobId,
        personName: "installer person",
        code: "job-not-open",
        sentence: expect.stringContaining("takes no more answers"),
        decision: null,
      }),
    ]);
  });

  test("becomes an answer with its own time, only once the job is open again", async () => {
    const { job, op } = await heldOnClosedJob(service);
    const tooEarly = await decide(op.opId, "application");
    expect([tooEarly.status, tooEarly.body.type]).toEqual([409, "/problems/job-not-open"]);
    await reopen(job);
    const applied = await decide(op.opId, "application");
    expect(applied.status, JSON.stringify(applied.body)).toBe(201);
    expect(applied.body.decision).toMatchObject({
      decision: "applied",
      decidedById: service.firm.people.office.id,
      reply: { verdict: { outcome: "pass" } },
    });
    const list = await office().get(`/api/v1/jobs/${job.jobId}/answers?itemId=wall_gap`);
    const answer = list.body.items.at(-1);
    expect(answer).toMatchObject({ id: op.opId, personId: service.firm.people.installer.id });
    expect(answer.takenAt).toBe(firstTo(job, "wall_gap").takenAt);
    const entry = (await ledgerOf(service, job.jobId)).at(-1);
    expect(entry?.body).toMatchObject({
      opId: op.opId,
      appliedById: service.firm.people.office.id,
    });
    // The tablet still gets the reply of then.
    const again = await sendOps(service, [op]);
    expect(again.body.results[0]).toMatchObject({ outcome: "held", repeated: true });
  });

  test("is dismissed with a reason that stays on the record", async () => {
    const { job, op } = await heldOnClosedJob(service);
    const bare = await decide(op.opId, "dismissal", { reason: "  " });
    expect(bare.status).toBe(422);
    const dismissed = await decide(op.opId, "dismissal", { reason: "Read again since." });
    expect(dismissed.body.decision).toMatchObject({
      decision: "dismissed",
      reason: "Read again since.",
    });
    const open = await office().get(`/api/v1/held-operations?jobId=${job.jobId}&decided=false`);
    const decided = await office().get(`/api/v1/held-operations?jobId=${job.jobId}&decided=true`);
    expect([open.body.items.length, decided.body.items.length]).toEqual([0, 1]);
    const personId = service.firm.people.office.id;
    expect((await ledgerOf(service, job.jobId)).at(-1)).toMatchObject({
      kind: "operation.dismissed",
      body: { opId: op.opId, personId, reason: "Read again since." },
    });
  });

  test("is decided once, by two at the same time too", async () => {
    const { op } = await heldOnClosedJob(service);
    const reason = { reason: "Seen." };
    const both = await Promise.all([
      decide(op.opId, "dismissal", reason),
      decide(op.opId, "dismissal", reason),
    ]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
    const after = await decide(op.opId, "application");
    expect([after.status, after.body.detail]).toEqual([
      409,
      "office person dismissed it on 2026-11-25.",
    ]);
  });

  test("of a person without the role is applied once the owner gave it", async () => {
    const job = await addPracticeJob(service);
    const { auditor } = service.firm.people;
    const op = testTablet(job.jobId, auditor.id).answer(firstTo(job, "serial"));
    await sendOps(service, [op]);
    expect((await decide(op.opId, "application")).status).toBe(403);
    const owner = service.as(service.firm.people.owner);
    const edited = await owner
      .patch(`/api/v1/people/${auditor.id}`)
      .set("if-match", '"1"')
      .send({ roles: ["auditor", "installer"] });
    expect(edited.status, JSON.stringify(edited.body)).toBe(200);
    expect((await decide(op.opId, "application")).status).toBe(201);
  });

  test.each(["snag", "close-out"])("of the kind %s is applied, too", async (kind) => {
    const job = await addPracticeJob(service);
    const payloads = {
      snag: { kind, text: "Lid missing" },
      "close-out": { kind, seenOpen: true, seenBlockers: 0 },
    };
    const person = await service
      .as(service.firm.people.owner)
      .post("/api/v1/people")
      .send({
        email: `${kind}@alder.example`,
        name: "Sam Elder",
        roles: ["auditor"],
        password: "seven quiet lanterns drift",
      });
    const tablet = testTablet(job.jobId, person.body.id);
    const op = tablet.keep(payloads[kind as keyof typeof payloads]);
    expect(outcomes(await sendOps(service, [op]))).toEqual(["held"]);
    expect((await decide(op.opId, "application")).status).toBe(403);
    await service
      .as(service.firm.people.owner)
      .patch(`/api/v1/people/${person.body.id}`)
      .set("if-match", '"1"')
      .send({ roles: ["installer"] });
    expect((await decide(op.opId, "application")).status).toBe(201);
  });
});

describe("the list of held operations", () => {
  test("is paged by its cursor", async () => {
    const first = await office().get("/api/v1/held-operations?limit=1");
    const second = await office().get(nextOf(first));
    const all = await office().get("/api/v1/held-operations?limit=2");
    const ids = (reply: { body: { items: { opId: string }[] } }) =>
      reply.body.items.map(({ opId }) => opId);
    expect([...ids(first), ...ids(second)]).toEqual(ids(all));
    expect(ids(all)).toHaveLength(2);
  });

  test("is the office's and the managers', and shows nothing of another firm", async () => {
    const installer = service.as(service.firm.people.installer);
    expect((await installer.get("/api/v1/held-operations")).status).toBe(403);
    const { op } = await heldOnClosedJob(service);
    const birch = await service.addFirm(`birch${uuidv7().slice(-6)}`);
    const theirs = service.as(birch.people.office);
    expect((await theirs.get("/api/v1/held-operations")).body.items).toEqual([]);
    const reply = await theirs.post(`/api/v1/held-operations/${op.opId}/application`);
    expect(reply.status).toBe(404);
  });
});
