import pg from "pg";
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

async function stageTimesOf({ jobId }: PracticeJob) {
  const client = new pg.Client({ connectionString: service.ownerUrl });
  await client.connect();
  const { rows } = await client.query(
    "SELECT stage_id, active_ms FROM stage_time WHERE job_id = $1",
    [jobId],
  );
  await client.end();
  return { stageTimes: rows };
}

describe("other facts", () => {
  test("a blocked close-out is stored with the count of what stands in the way", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const op = tablet.keep({ kind: "close-out", seenOpen: true, seenBlockers: 0 });
    const reply = await sendOps(service, [op]);
    expect(reply.body.results[0]).toMatchObject({
      outcome: "stored",
      closed: false,
      blockers: job.answers().length,
    });
    expect(outcomes(await sendOps(service, [op]))).toEqual(["repeated"]);
  });

  test("a close-out of a job that another closed is stored: what was asked for is so", async () => {
    const job = await addPracticeJob(service);
    const first = tabletAt(job);
    const close = { kind: "close-out", seenOpen: true, seenBlockers: 0 };
    const ops = [...job.answers().map((answer) => first.answer(answer)), first.keep(close)];
    await sendOps(service, ops);
    const second = tabletAt(job);
    const late = await sendOps(service, [
      second.keep(close),
      second.answer(firstTo(job, "serial")),
    ]);
    expect(late.body.results).toMatchObject([
      { outcome: "stored", closed: true },
      { outcome: "held", code: "job-not-open" },
    ]);
  });

  test.each([
    ["a line", "Trunking lid missing", { title: "Trunking lid missing", detail: null }],
    ["two lines", "Lid\nleft of the box", { title: "Lid", detail: "Lid\nleft of the box" }],
    ["a long line", "x".repeat(161), { title: `${"x".repeat(79)} …`, detail: "x".repeat(161) }],
    ["a line that just fits", "x".repeat(160), { title: "x".repeat(160), detail: null }],
  ])("a snag of %s is raised once, under the operation's id", async (_name, text, expected) => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const op = tablet.keep({ kind: "snag", text });
    await sendOps(service, [op]);
    await sendOps(service, [op]);
    const list = await service
      .as(service.firm.people.office)
      .get(`/api/v1/jobs/${job.jobId}/snags`);
    expect(list.body.items).toEqual([expect.objectContaining({ id: op.opId, ...expected })]);
  });

  test("a stage's time is kept; of a stage the plan lacks, or backwards, it is held", async () => {
    const job = await addPracticeJob(service);
    const tablet = tabletAt(job);
    const time = {
      kind: "stage-time",
      stageId: "fix",
      startedAt: "2026-11-25T10:00:00Z",
      endedAt: "2026-11-25T11:00:00Z",
      activeMs: 1_800_000,
    };
    const reply = await sendOps(service, [
      tablet.keep(time),
      tablet.keep({ ...time, stageId: "dance" }),
      tablet.keep({ ...time, stageId: "dan\u0000ce" }),
      tablet.keep({ ...time, endedAt: "2026-11-25T09:59:59Z" }),
    ]);
    expect(outcomes(reply)).toEqual(["stored", "held", "refused", "held"]);
    const { stageTimes } = await stageTimesOf(job);
    expect(stageTimes).toEqual([{ stage_id: "fix", active_ms: 1_800_000 }]);
  });
});
