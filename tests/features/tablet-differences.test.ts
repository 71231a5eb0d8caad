import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob, type WireAnswer } from "../support/practice-job.ts";
import { outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

const tabletAt = (job: PracticeJob) => testTablet(job.jobId, service.firm.people.installer.id);
const firstTo = (job: PracticeJob, itemId: string): WireAnswer =>
  job.answers().find((answer) => answer.itemId === itemId)!;
const differencesOf = (job: PracticeJob) =>
  service.as(service.firm.people.office).get(`/api/v1/jobs/${job.jobId}/differences`);

const gap = (job: PracticeJob, number: number, takenAt: string): WireAnswer => ({
  ...firstTo(job, "wall_gap"),
  value: { number, unit: "mm" },
  takenAt,
});
const TEN = "2026-11-25T10:00:00+00:00";
const ELEVEN = "2026-11-25T11:00:00+00:00";

describe("two tablets that answer the same without knowing of each other", () => {
  test("are both kept, the later one flagged, and the difference told in words", async () => {
    const job = await addPracticeJob(service);
    const first = await sendOps(service, [tabletAt(job).answer(gap(job, 12, ELEVEN))]);
    const second = await sendOps(service, [tabletAt(job).answer(gap(job, 8, TEN))]);
    expect(first.body.results[0]).toMatchObject({ outcome: "stored", differs: false });
    expect(second.body.results[0]).toMatchObject({ outcome: "stored", differs: true });
    const { items } = (await differencesOf(job)).body;
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ itemId: "wall_gap", subject: job.packIds[0], same: false });
    expect(items[0].subjectLabel).toMatch(/^KH/);
    expect(items[0].sentence).toBe(
      "Two tablets answered this: installer person at 11:00: Read 12 mm; needed at least 9 mm. " +
        "installer person at 10:00: Read 8 mm; needed at least 9 mm. " +
        "What installer person took last counts.",
    );
    expect(items[0].answers.map((answer: { counts: boolean }) => answer.counts)).toEqual([
      true,
      false,
    ]);
    const page = await service
      .as(service.firm.people.office)
      .get(`/jobs/${job.jobId}`)
      .set("accept", "text/html");
    expect(page.text).toContain("Two tablets answered this: installer person at 11:00");
  });

  test("with the same value are told to agree", async () => {
    const job = await addPracticeJob(service);
    await sendOps(service, [tabletAt(job).answer(gap(job, 12, TEN))]);
    await sendOps(service, [tabletAt(job).answer(gap(job, 12, ELEVEN))]);
    const { items } = (await differencesOf(job)).body;
    expect(items[0]).toMatchObject({ same: true });
    expect(items[0].sentence).toContain("answered this alike");
  });

  test("no longer count once somebody answered again", async () => {
    const job = await addPracticeJob(service);
    await sendOps(service, [tabletAt(job).answer(gap(job, 12, TEN))]);
    await sendOps(service, [tabletAt(job).answer(gap(job, 8, TEN))]);
    await sendOps(service, [tabletAt(job).answer(gap(job, 11, ELEVEN), { orderSeen: 2 })]);
    const { items } = (await differencesOf(job)).body;
    expect(items[0].sentence).toContain("It was answered again since, and that counts.");
    expect(items).toHaveLength(1);
  });
});

describe("no difference is", () => {
  test("an answer by a tablet that had seen the other one", async () => {
    const job = await addPracticeJob(service);
    const first = await sendOps(service, [tabletAt(job).answer(gap(job, 8, TEN))]);
    const { receiptOrder } = first.body.results[0];
    const seen = { orderSeen: receiptOrder };
    const second = await sendOps(service, [tabletAt(job).answer(gap(job, 12, ELEVEN), seen)]);
    const unseen = { orderSeen: receiptOrder - 1 };
    const third = await sendOps(service, [tabletAt(job).answer(gap(job, 12, ELEVEN), unseen)]);
    expect(second.body.results[0].differs).toBe(false);
    expect(third.body.results[0].differs).toBe(true);
  });

  test("a tablet's own second attempt, nor the same item of another unit", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const reply = await sendOps(service, [
      tablet.answer(gap(job, 8, TEN)),
      tablet.answer(gap(job, 12, ELEVEN)),
    ]);
    const other = { ...gap(job, 12, TEN), subject: job.packIds[1]! };
    const elsewhere = await sendOps(service, [tabletAt(job).answer(other)]);
    expect([...outcomes(reply), ...outcomes(elsewhere)]).toEqual(["stored", "stored", "stored"]);
    expect((await differencesOf(job)).body.items).toEqual([]);
  });
});

test("an answer entered in the office meanwhile is told apart from a tablet's", async () => {
  const job = await addPracticeJob(service);
  const typed = await service
    .as(service.firm.people.manager)
    .post(`/api/v1/jobs/${job.jobId}/answers`)
    .send({ answers: [gap(job, 12, TEN)] });
  expect(typed.status).toBe(201);
  await sendOps(service, [tabletAt(job).answer(gap(job, 8, ELEVEN))]);
  const { items } = (await differencesOf(job)).body;
  expect(items[0].sentence).toMatch(/^A tablet and the office answered this: manager person at/);
});

test("differences of another firm's job are not there", async () => {
  const job = await addPracticeJob(service);
  const birch = await service.addFirm("birch");
  const reply = await service.as(birch.people.office).get(`/api/v1/jobs/${job.jobId}/differences`);
  expect(reply.status).toBe(404);
});
