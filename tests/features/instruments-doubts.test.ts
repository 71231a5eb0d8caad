// Readings taken with an instrument that is found wrong afterwards are found and told, while what
// was judged stays: ISO 9001:2015 7.1.5.2, ISO 10012:2003 8.3.3, ISO/IEC 17025:2017 7.10, from
// memory.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { idsOf, ledgerOf, nextOf } from "../support/reading.ts";
import { torqueWork } from "../support/torque-work.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const MARCH = "2026-03-05T09:00:00+00:00";
const TODAY = "2026-11-25T09:00:00+00:00";
const WORDS = "instrument later found out of tolerance";

let service: TestService;
let work: ReturnType<typeof torqueWork>;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  work = torqueWork(service);
});
afterAll(() => service.stop());

const affected = (id: string, query = "") =>
  work.office.get(`/api/v1/instruments/${id}/affected-readings${query}`);

const doubtedIn = async (jobId: string) =>
  (await ledgerOf(service, jobId)).filter(({ kind }) => kind === "instrument.doubted");

const page = async (jobId: string) => (await work.office.get(`/jobs/${jobId}`)).text;

describe("a failed calibration", () => {
  test("lists the readings since the last that passed, with the verdict as kept", async () => {
    const { id } = await work.tool({}, "2025-06-01");
    const before = await work.closedJob(id, "2026-01-20T09:00:00+00:00");
    await work.calibrate(id, "2026-02-02");
    const closed = await work.closedJob(id, MARCH);
    const open = await work.place();
    const [kept] = await work.submit(open.jobId, { tool: id, takenAt: MARCH });
    expect((await affected(id)).body).toEqual({ items: [], next: null });
    await work.calibrate(id, "2026-11-24", false);
    const { items } = (await affected(id)).body;
    expect(items.map((row: { id: string }) => row.id).sort()).toEqual(
      [...closed.answerIds, kept!.id].sort(),
    );
    expect(items.find((row: { id: string }) => row.id === closed.answerIds[0])).toMatchObject({
      jobId: closed.jobId,
      jobState: "closed",
      siteId: closed.siteId,
      itemId: "shelf_bolts",
      itemTitle: "Shelf bolts",
      subject: "",
      takenAt: MARCH,
      verdict: { outcome: "pass", code: "passed", clears: true },
      cause: "calibration-failed",
      found: "2026-11-24",
      replaced: false,
    });
    expect(await doubtedIn(before.jobId)).toEqual([]);
  });

  test("is written into the ledger of each job, which stays closed as it was", async () => {
    const { id } = await work.tool();
    const closed = await work.closedJob(id, MARCH);
    const read = () => work.office.get(`/api/v1/jobs/${closed.jobId}/close-out`);
    const before = (await read()).body;
    await work.calibrate(id, "2026-11-24", false);
    expect(await doubtedIn(closed.jobId)).toMatchObject([
      {
        body: {
          answerIds: closed.answerIds,
          answers: 2,
          cause: "calibration-failed",
          found: "2026-11-24",
          instrumentId: id,
          personId: service.firm.people.office.id,
        },
      },
    ]);
    expect((await read()).body).toEqual(before);
    expect((await work.office.get(`/api/v1/jobs/${closed.jobId}`)).body.state).toBe("closed");
  });

  test("is told on the job's page beside each reading, in words", async () => {
    const { id } = await work.tool();
    const closed = await work.closedJob(id, MARCH);
    expect(await page(closed.jobId)).not.toContain(WORDS);
    await work.calibrate(id, "2026-11-24", false);
    const text = await page(closed.jobId);
    expect(text.split(WORDS)).toHaveLength(3);
    expect(text).toContain("4 of 4 tightened at 6 N·m");
  });

  test("that is undone with its record leaves no doubt behind", async () => {
    const { id } = await work.tool();
    const closed = await work.closedJob(id, MARCH);
    const refused = await work.office
      .post(`/api/v1/instruments/${id}/calibrations`)
      .send({ calibratedOn: "2026-11-26", passed: false, certificate: "K" });
    expect(refused.status).toBe(422);
    expect(await doubtedIn(closed.jobId)).toEqual([]);
  });

  test("of more jobs than one batch reaches every one of them", async () => {
    const { id } = await work.tool();
    const jobs = [];
    for (let count = 0; count < 26; count += 1) {
      const { jobId } = await work.place();
      await work.submit(jobId, { tool: id, takenAt: MARCH });
      jobs.push(jobId);
    }
    await work.calibrate(id, "2026-11-24", false);
    for (const jobId of jobs) expect(await doubtedIn(jobId)).toHaveLength(1);
    const first = await affected(id, "?limit=25");
    expect(first.body.items).toHaveLength(25);
    const second = await work.office.get(nextOf(first));
    expect(second.body.items).toHaveLength(1);
    expect(new Set([...idsOf(first), ...idsOf(second)]).size).toBe(26);
  });
});

describe("an overload that is entered late", () => {
  test("casts doubt on what was read since, and on nothing before", async () => {
    const { id } = await work.tool();
    const before = await work.closedJob(id, "2026-03-04T09:00:00+00:00");
    const after = await work.closedJob(id, MARCH);
    await work.record(id, { kind: "overload", at: "2026-03-04T15:00:00+00:00" });
    expect(idsOf(await affected(id)).sort()).toEqual([...after.answerIds].sort());
    expect(await doubtedIn(before.jobId)).toEqual([]);
    expect(await doubtedIn(after.jobId)).toMatchObject([
      { body: { cause: "overload", found: "2026-03-04T15:00:00+00:00" } },
    ]);
    const text = await page(after.jobId);
    expect(text).toContain("instrument later found overloaded (2026-03-04 at 15:00)");
    expect(text).toContain("4 of 4 tightened at 6 N·m");
    expect(text).not.toContain("not met");
  });

  test("holds an open job until its reading is taken again; the kept verdict stays", async () => {
    const { id } = await work.tool();
    const { jobId } = await work.place();
    await work.submit(jobId, { tool: id, takenAt: MARCH });
    await work.record(id, { kind: "overload", at: "2026-03-04T15:00:00+00:00" });
    const { blockers } = (await work.office.get(`/api/v1/jobs/${jobId}/evaluation`)).body;
    expect(blockers.map(({ code }: { code: string }) => code)).toContain("instrument-overloaded");
    expect((await affected(id)).body.items).toMatchObject([{ verdict: { code: "passed" } }]);
  });

  test("and rechecked in between ends its doubt there", async () => {
    const { id } = await work.tool();
    const [early, late] = [await work.place(), await work.place()];
    const [one] = await work.submit(early.jobId, { tool: id, takenAt: MARCH });
    await work.submit(late.jobId, { tool: id, takenAt: TODAY });
    await work.record(id, { kind: "recheck-passed", at: "2026-03-06T09:00:00+00:00" });
    await work.record(id, { kind: "dropped", at: "2026-03-04T15:00:00+00:00" });
    expect(idsOf(await affected(id))).toEqual([one!.id]);
    expect(await doubtedIn(late.jobId)).toEqual([]);
  });

  test("a failed recheck reaches back to the last passed calibration", async () => {
    const { id } = await work.tool();
    const closed = await work.closedJob(id, MARCH);
    await work.record(id, { kind: "recheck-failed", at: TODAY });
    expect((await affected(id)).body.items).toHaveLength(2);
    expect(await page(closed.jobId)).toContain(WORDS);
  });
});

describe("a reading in doubt is replaced", () => {
  test.each([
    ["a sound instrument", "sound", true],
    ["the same one, still in doubt", "same", false],
  ])("by a later attempt with %s", async (_what, which, isReplaced) => {
    const { id } = await work.tool();
    const sound = await work.tool();
    const { jobId } = await work.place();
    const [first] = await work.submit(jobId, { tool: id, takenAt: MARCH });
    const tool = which === "sound" ? sound.id : id;
    await work.submit(jobId, { tool, takenAt: "2026-03-06T09:00:00+00:00" });
    await work.calibrate(id, "2026-11-24", false);
    const rows = (await affected(id)).body.items as { id: string; replaced: boolean }[];
    expect(rows.find((row) => row.id === first!.id)?.replaced).toBe(isReplaced);
    expect(idsOf(await affected(id, "?replaced=true"))).toEqual(isReplaced ? [first!.id] : []);
    expect(idsOf(await affected(id, "?replaced=false"))).toHaveLength(isReplaced ? 0 : 2);
  });

  test("by the same one once it has passed a later calibration", async () => {
    const { id } = await work.tool();
    const { jobId } = await work.place();
    await work.submit(jobId, { tool: id, takenAt: MARCH });
    await work.calibrate(id, "2026-11-20", false);
    await work.calibrate(id, "2026-11-24");
    expect((await affected(id)).body.items).toMatchObject([{ replaced: false }]);
    await work.submit(jobId, { tool: id, takenAt: TODAY });
    expect((await affected(id)).body.items).toMatchObject([{ takenAt: MARCH, replaced: true }]);
  });
});
