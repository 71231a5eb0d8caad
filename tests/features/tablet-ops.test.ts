import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ACCESS } from "../../src/access.ts";
import { ROLES_BY_KIND } from "../../src/features/tablet/ops-person.ts";
import { ROLES } from "../../src/web/roles.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob, type WireAnswer } from "../support/practice-job.ts";
import { ledgerOf, pointers } from "../support/reading.ts";
import { outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

const installerId = () => service.firm.people.installer.id;
const tabletAt = (job: PracticeJob) => testTablet(job.jobId, installerId());
const answersTo = (job: PracticeJob, itemId: string): WireAnswer[] =>
  job.answers().filter((answer) => answer.itemId === itemId);
const firstTo = (job: PracticeJob, itemId: string) => answersTo(job, itemId)[0]!;

async function keptAnswers(job: PracticeJob) {
  const reply = await service
    .as(service.firm.people.office)
    .get(`/api/v1/jobs/${job.jobId}/answers?limit=500`);
  return reply.body.items as (WireAnswer & { receiptOrder: number; personId: string })[];
}

describe("operations of a tablet", () => {
  test("carry a whole visit: every answer with its verdict, and the job closed", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const ops = job.answers().map((answer) => tablet.answer(answer));
    ops.push(tablet.keep({ kind: "close-out", seenOpen: true, seenBlockers: 0 }));
    const reply = await sendOps(service, ops);
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    expect(new Set(outcomes(reply))).toEqual(new Set(["stored"]));
    expect(reply.body.storedThrough).toBe(ops.length);
    const answered = reply.body.results.slice(0, -1);
    expect(answered.map((result: { receiptOrder: number }) => result.receiptOrder)).toEqual(
      answered.map((_: unknown, index: number) => index + 1),
    );
    expect(
      answered.every((result: { verdict: { clears: boolean } }) => result.verdict.clears),
    ).toBe(true);
    expect(reply.body.results.at(-1)).toMatchObject({ closed: true, blockers: 0 });
    const kept = await keptAnswers(job);
    expect(kept.map(({ id }) => id)).toEqual(ops.slice(0, -1).map(({ opId }) => opId));
  });

  test("name themselves and their sender in the job's ledger", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const op = tablet.answer(firstTo(job, "serial"));
    await sendOps(service, [op], service.firm.people.manager);
    const { deviceId, opId } = op;
    const sentById = service.firm.people.manager.id;
    const [entry] = await ledgerOf(service, job.jobId);
    expect(entry).toMatchObject({
      kind: "answer.taken",
      body: { id: opId, opId, deviceId, deviceSeq: 1, sentById, personId: installerId() },
    });
  });

  test("sent again bring the stored replies, and nothing is stored twice", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const ops = answersTo(job, "serial").map((answer) => tablet.answer(answer));
    const first = await sendOps(service, ops);
    const again = await sendOps(service, ops);
    expect(outcomes(again)).toEqual(["repeated", "repeated"]);
    const bare = ({ repeated: _repeated, ...result }: { repeated: boolean }) => result;
    expect(again.body.results.map(bare)).toEqual(first.body.results.map(bare));
    expect(again.body.storedThrough).toBe(2);
    expect(await keptAnswers(job)).toHaveLength(2);
    expect(await ledgerOf(service, job.jobId)).toHaveLength(2);
  });

  test("before their turn are early and not kept, until the gap is filled", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const [first, second] = answersTo(job, "serial").map((answer) => tablet.answer(answer));
    const ahead = await sendOps(service, [second]);
    expect([outcomes(ahead), ahead.body.storedThrough]).toEqual([["early"], 0]);
    expect(await keptAnswers(job)).toEqual([]);
    const turned = await sendOps(service, [second, first, second]);
    expect([outcomes(turned), turned.body.storedThrough]).toEqual([
      ["early", "stored", "stored"],
      2,
    ]);
  });

  test("under an id or a place that is taken are refused and put into quarantine", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const first = tablet.answer(firstTo(job, "serial"));
    await sendOps(service, [first]);
    const otherBody = { ...first, monotonicMs: 7 };
    const otherId = { ...first, opId: uuidv7() };
    const nextPlace = { ...first, deviceSeq: 2 };
    const reply = await sendOps(service, [otherBody, otherId, nextPlace, nextPlace]);
    expect(outcomes(reply)).toEqual(["refused", "refused", "refused", "refused"]);
    expect(reply.body.results[0]).toMatchObject({ code: "op-reused" });
    expect(reply.body.storedThrough).toBe(2);
    const list = await service.as(service.firm.people.owner).get("/api/v1/quarantine");
    const bodies = list.body.items.map((item: { body: string }) => JSON.parse(item.body));
    expect(bodies).toEqual(expect.arrayContaining([otherBody, otherId, nextPlace]));
    expect(bodies).toHaveLength(3);
    // The place of an operation whose id was another's is used up: the next one follows.
    const third = { ...first, opId: uuidv7(), deviceSeq: 3 };
    expect(outcomes(await sendOps(service, [third]))).toEqual(["stored"]);
    expect(await keptAnswers(job)).toHaveLength(2);
  });

  test("that do not follow from the one before are stored and flagged", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const [first, second] = answersTo(job, "serial").map((answer) => tablet.answer(answer));
    const torn = { ...second!, prevHash: "a".repeat(64) };
    expect(outcomes(await sendOps(service, [first, torn]))).toEqual(["stored", "stored"]);
    const differences = await service
      .as(service.firm.people.office)
      .get(`/api/v1/jobs/${job.jobId}/differences`);
    expect(differences.body.brokenChains).toEqual([
      expect.objectContaining({ opId: second!.opId, deviceSeq: 2 }),
    ]);
  });

  test("are hashed as they were sent, before anything is trimmed or filled in", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const [first, second] = answersTo(job, "serial");
    const spaced = tablet.answer({ ...first!, note: "  read twice  " });
    await sendOps(service, [spaced, tablet.answer(second!)]);
    const differences = await service
      .as(service.firm.people.office)
      .get(`/api/v1/jobs/${job.jobId}/differences`);
    expect(differences.body.brokenChains).toEqual([]);
    expect((await keptAnswers(job))[0]?.note).toBe("read twice");
  });

  test("of one device id in two firms do not know of each other", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    await sendOps(service, [tablet.answer(firstTo(job, "serial"))]);
    const birch = await service.addFirm(`birch${uuidv7().slice(-6)}`);
    const theirs = testTablet(job.jobId, birch.people.installer.id, tablet.deviceId);
    const reply = await sendOps(
      service,
      [theirs.answer(firstTo(job, "serial"))],
      birch.people.installer,
    );
    // The job is not theirs, so it is held; it was taken as the first of its own row.
    expect(reply.body).toMatchObject({
      results: [{ outcome: "held", code: "not-found" }],
      storedThrough: 1,
    });
    expect(await keptAnswers(job)).toHaveLength(1);
  });
});

describe("a batch", () => {
  test("is refused as a whole where it is malformed, with the places", async () => {
    const job = await addPracticeJob(service);
    const op = tabletAt(job).answer(firstTo(job, "serial"));
    const zero = await sendOps(service, []);
    const many = await sendOps(
      service,
      Array.from({ length: 101 }, () => op),
    );
    const bad = await sendOps(service, [op, { ...op, deviceSeq: 0 }]);
    expect([zero, many, bad].map(({ status }) => status)).toEqual([422, 422, 422]);
    expect(pointers(bad)).toEqual(["/body/ops/1/deviceSeq"]);
    expect(await keptAnswers(job)).toEqual([]);
  });

  test("needs a person who is signed in, with a role that works on jobs", async () => {
    const job = await addPracticeJob(service);
    const op = tabletAt(job).answer(firstTo(job, "serial"));
    const anonymous = await service.anonymous.post("/api/v1/tablet/ops").send({ ops: [op] });
    const auditor = await sendOps(service, [op], service.firm.people.auditor);
    expect([anonymous.status, auditor.status]).toEqual([401, 403]);
    expect(await keptAnswers(job)).toEqual([]);
  });
});

test("what a person may keep on a tablet takes the roles of the same request", () => {
  expect(ROLES_BY_KIND.answer).toEqual(ACCESS.submitAnswers);
  expect([...ROLES_BY_KIND.snag].sort()).toEqual([...(ACCESS.raiseSnag ?? [])].sort());
  expect(ROLES_BY_KIND["close-out"]).toEqual(ACCESS.closeOutJob);
  expect(ROLES_BY_KIND["stage-time"]).toEqual(ROLES);
});
