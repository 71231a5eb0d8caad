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

describe("an operation that is well formed but cannot take effect is held with the reason", () => {
  const held = async (job: PracticeJob, make: (tablet: ReturnType<typeof tabletAt>) => unknown) => {
    const tablet = tabletAt(job);
    const reply = await sendOps(service, [make(tablet), tablet.answer(firstTo(job, "serial"))]);
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    expect(reply.body.storedThrough).toBe(2);
    return reply.body.results[0] as { outcome: string; code?: string; sentence?: string };
  };
  const wrong =
    (change: (answer: WireAnswer, job: PracticeJob) => object) =>
    ({ job }: Case) =>
    (tablet: ReturnType<typeof tabletAt>) =>
      tablet.answer({ ...firstTo(job, "pack_voltage_on"), ...change(firstTo(job, "serial"), job) });
  interface Case {
    job: PracticeJob;
  }
  const NO_ID = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a11";

  test.each([
    ["no item of the plan", wrong(() => ({ itemId: "nothing" })), "invalid-input", "no item"],
    ["no unit of the job", wrong(() => ({ subject: NO_ID })), "invalid-input", "asked for"],
    [
      "a value that cannot be read",
      wrong(() => ({ value: { number: "plenty", unit: "V" } })),
      "invalid-input",
      "plenty",
    ],
    [
      "an instrument unknown",
      wrong(() => ({ instrumentId: NO_ID })),
      "invalid-input",
      "instrument",
    ],
    [
      "a clock that is days ahead",
      wrong(() => ({ takenAt: "2026-11-27T17:00:01Z" })),
      "invalid-input",
      "future",
    ],
    [
      "a year that no calendar has, which only the database refuses",
      wrong(() => ({ takenAt: "0000-01-01T00:00:00Z" })),
      "invalid-input",
      "outside",
    ],
  ])("%s", async (_name, make, code, words) => {
    const job = await addPracticeJob(service);
    const result = await held(job, make({ job }));
    expect(result).toMatchObject({ outcome: "held", code });
    expect(result.sentence).toContain(words);
  });

  test("no job of the firm, no person of the firm, a person without the role", async () => {
    const job = await addPracticeJob(service);
    const results = [
      await held(job, (tablet) => tablet.answer(firstTo(job, "serial"), { jobId: NO_ID })),
      await held(job, (tablet) => tablet.answer(firstTo(job, "serial"), { personId: NO_ID })),
      await held(job, (tablet) =>
        tablet.answer(firstTo(job, "serial"), { personId: service.firm.people.auditor.id }),
      ),
    ];
    expect(results.map(({ code }) => code)).toEqual(["not-found", "not-found", "not-allowed"]);
    expect(results[2]?.sentence).toBe(
      "An answer takes the role installer or manager; auditor person has auditor.",
    );
  });

  test("a job that is cancelled: answers, snags and close-outs alike", async () => {
    const job = await addPracticeJob(service);
    const cancelled = await service
      .as(service.firm.people.office)
      .post(`/api/v1/jobs/${job.jobId}/cancellation`)
      .send({ reason: "Customer moved." });
    expect(cancelled.status, JSON.stringify(cancelled.body)).toBe(201);
    const tablet = tabletAt(job);
    const reply = await sendOps(service, [
      tablet.answer(firstTo(job, "serial")),
      tablet.keep({ kind: "snag", text: "Lid missing" }),
      tablet.keep({ kind: "close-out", seenOpen: true, seenBlockers: 0 }),
    ]);
    expect(outcomes(reply)).toEqual(["held", "held", "held"]);
    expect(reply.body.results[0].sentence).toContain("is cancelled");
  });
});

test("facts of another firm than the one signed in are left on the tablet", async () => {
  const job = await addPracticeJob(service);
  const ops = [tabletAt(job).answer(firstTo(job, "serial"))];
  const { installer } = service.firm.people;
  const send = (firmId: string) =>
    service.as(installer).post("/api/v1/tablet/ops").send({ ops, firmId });
  expect((await send(job.jobId)).status).toBe(401);
  expect(outcomes(await send(service.firm.firmId))).toEqual(["stored"]);
});
