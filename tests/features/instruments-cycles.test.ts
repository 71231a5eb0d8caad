// Cycles of torque tools counted from the work: ISO 6789-1:2017 5.3 (12 months or 5,000 cycles),
// from memory.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { torqueWork } from "../support/torque-work.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const MORNING = "2026-11-25T09:00:00+00:00";
const EARLIER = "2026-11-20T09:00:00+00:00";

let service: TestService;
let work: ReturnType<typeof torqueWork>;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  work = torqueWork(service);
});
afterAll(() => service.stop());

const used = (id: string, cycles: number, at = EARLIER) =>
  work.record(id, { kind: "used", at, cycles });

/** What the gate says of the job's shelf bolts now. */
async function standing(jobId: string): Promise<string> {
  const reply = await work.office.get(`/api/v1/jobs/${jobId}/evaluation`);
  const facts = reply.body.facts as { itemId: string; code: string }[];
  return facts.find(({ itemId }) => itemId === "shelf_bolts")?.code ?? "";
}

describe("the cycles of a torque tool", () => {
  test("are 5,000 from one calibration to the next unless the firm says otherwise", async () => {
    const { id } = await work.tool();
    expect(await work.read(id)).toMatchObject({ intervalMonths: 12, intervalCycles: 5000 });
    const unlimited = await work.tool({ intervalCycles: null });
    expect(await work.read(unlimited.id)).toMatchObject({ intervalCycles: null, cyclesLeft: null });
    const tape = await work.tool({ instrumentClass: "tape" });
    expect(await work.read(tape.id)).toMatchObject({
      intervalCycles: null,
      cyclesSinceCalibration: null,
      cyclesLeft: null,
    });
  });

  test("are every fastener of every attempt, on whatever job, and what is entered", async () => {
    const { id } = await work.tool();
    const [one, two] = [await work.place(), await work.place()];
    await work.submit(one.jobId, { tool: id, takenAt: EARLIER, fasteners: 3 });
    await work.submit(one.jobId, { tool: id, takenAt: EARLIER, settingNm: 9 });
    await work.submit(two.jobId, { tool: id, takenAt: MORNING, itemId: "cover_screws" });
    expect((await used(id, 100)).status).toBe(201);
    expect(await work.read(id)).toMatchObject({
      cyclesSinceCalibration: 3 + 4 + 6 + 100,
      cyclesLeft: 5000 - 113,
      fitNow: true,
      reason: null,
    });
  });

  test("begin anew with a calibration that passes, its own day included", async () => {
    const { id } = await work.tool();
    await used(id, 70, "2026-11-19T09:00:00+00:00");
    await used(id, 30, "2026-11-20T09:00:00+00:00");
    await work.calibrate(id, "2026-11-20");
    expect(await work.read(id)).toMatchObject({ cyclesSinceCalibration: 30, cyclesLeft: 4970 });
  });

  test.each([
    [4996, "passed", { cyclesLeft: 0, fitNow: false }],
    [4995, "passed", { cyclesLeft: 1, fitNow: true }],
    [4997, "instrument-out-of-cycles", { cyclesLeft: 0, fitNow: false }],
  ])("%d and four fasteners: %s", async (cycles, code, standingNow) => {
    const { id } = await work.tool();
    await used(id, cycles);
    const { jobId } = await work.place();
    expect(await work.codes(jobId, { tool: id, takenAt: MORNING })).toEqual([code]);
    expect(await standing(jobId)).toBe(code);
    const shown = await work.read(id);
    expect(shown).toMatchObject(standingNow);
    expect(shown.reason?.code).toBe(standingNow.fitNow ? undefined : "instrument-out-of-cycles");
  });

  test("within one batch make the first answer past the limit the first stale one", async () => {
    const { id } = await work.tool();
    await used(id, 4990);
    const { jobId } = await work.place();
    const batch = [
      { tool: id, takenAt: MORNING },
      { tool: id, takenAt: MORNING, itemId: "cover_screws" },
      { tool: id, takenAt: MORNING },
    ];
    const expected = ["passed", "passed", "instrument-out-of-cycles"];
    expect(await work.codes(jobId, ...batch)).toEqual(expected);
    const kept = await work.office.get(`/api/v1/jobs/${jobId}/answers`);
    expect(kept.body.items.map((row: { verdict: { code: string } }) => row.verdict.code)).toEqual(
      expected,
    );
  });

  test("count the job's other items, which its answer alone does not read", async () => {
    const { id } = await work.tool();
    await used(id, 4992);
    const { jobId } = await work.place();
    const screws = { tool: id, takenAt: MORNING, itemId: "cover_screws" };
    expect(await work.codes(jobId, screws)).toEqual(["passed"]);
    expect(await work.codes(jobId, { tool: id, takenAt: MORNING })).toEqual([
      "instrument-out-of-cycles",
    ]);
  });

  test("that another job sends later do not change a verdict that was given", async () => {
    const { id } = await work.tool();
    await used(id, 4990);
    const [early, late] = [await work.place(), await work.place()];
    expect(await work.codes(early.jobId, { tool: id, takenAt: MORNING })).toEqual(["passed"]);
    await work.submit(late.jobId, { tool: id, takenAt: EARLIER, itemId: "cover_screws" });
    await used(id, 500);
    expect(await standing(early.jobId)).toBe("passed");
    expect(await work.codes(early.jobId, { tool: id, takenAt: MORNING })).toEqual([
      "instrument-out-of-cycles",
    ]);
  });

  test("done on a later day do not count against work that comes in late", async () => {
    const { id } = await work.tool();
    const [today, before] = [await work.place(), await work.place()];
    await used(id, 4998, MORNING);
    expect(await work.codes(before.jobId, { tool: id, takenAt: EARLIER })).toEqual(["passed"]);
    expect(await work.codes(today.jobId, { tool: id, takenAt: MORNING })).toEqual([
      "instrument-out-of-cycles",
    ]);
    expect(await standing(before.jobId)).toBe("passed");
  });

  test("sent by two jobs at once are counted one after the other", async () => {
    const { id } = await work.tool();
    await used(id, 4992);
    const jobs = await Promise.all(Array.from({ length: 5 }, () => work.place()));
    const found = await Promise.all(
      jobs.map(({ jobId }) => work.codes(jobId, { tool: id, takenAt: MORNING })),
    );
    expect(found.flat().filter((code) => code === "passed")).toHaveLength(2);
    const gate = await Promise.all(jobs.map(({ jobId }) => standing(jobId)));
    expect(gate).toEqual(found.flat());
  });

  test("stay in the count that old work was judged by when the tool is calibrated", async () => {
    const { id } = await work.tool({}, "2025-02-03");
    await used(id, 4998, "2025-06-01T09:00:00+00:00");
    const { jobId } = await work.place();
    const stale = { tool: id, takenAt: "2025-07-01T09:00:00+00:00" };
    expect(await work.codes(jobId, stale)).toEqual(["instrument-out-of-cycles"]);
    for (const day of ["2025-08-01", "2026-02-02", "2026-08-01"]) await work.calibrate(id, day);
    expect(await standing(jobId)).toBe("instrument-out-of-cycles");
    expect(await work.codes(jobId, { tool: id, takenAt: MORNING })).toEqual(["passed"]);
  });
});
