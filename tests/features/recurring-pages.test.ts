// Inspections that come round on pages, as they come without any script.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openRecurringInspections } from "../../src/runs/recurring-inspections.ts";
import { hiddenFields, pageForms, words } from "../support/page-forms.ts";
import { startWork, type Work } from "../support/work-rows.ts";

const PATH = "/recurring-inspections";
let work: Work;
beforeAll(async () => {
  work = await startWork();
});
afterAll(() => work.service.stop());

const { as, post, page } = pageForms(() => work);
const start = async (fields: object = {}) => {
  const { id: siteId } = await work.rows.site();
  const usual = { title: "Look-over", everyMonths: "12", horizonDays: "30" };
  const wish = { siteId, planId: work.planId, firstDueOn: "2027-01-31", ...usual, ...fields };
  const reply = await post(PATH, wish);
  const list = await page(`${PATH}?siteId=${siteId}`);
  const [, path = ""] = /href="(\/recurring-inspections\/[0-9a-f-]{36})"/.exec(list) ?? [];
  return { siteId, reply, list, path };
};
const banner = (html: string) => hiddenFields(html, 'role="status"');

test("a site is chosen, an inspection made, and its turns are told", async () => {
  expect(words(await page(PATH))).toContain("No inspection comes round here.");
  const choice = await page(`${PATH}/new`);
  expect(choice).toContain(`/recurring-inspections/new?siteId=${work.siteId}`);
  const { siteId, reply, list, path } = await start({ everyMonths: "1" });
  expect(reply.headers.location).toBe(`${PATH}?siteId=${siteId}`);
  // 31 January − 30 days = 1 January (ISO 8601 calendar).
  expect(words(list)).toMatch(/31 Jan 2027 job opens 1 Jan 2027 .* every month/);
  expect(await page(`/sites/${siteId}`)).toContain(`href="${PATH}?siteId=${siteId}"`);
  // In a shorter month the last day (RFC 7529 4.1, SKIP=BACKWARD); 2027 is no leap year.
  expect(words(await page(path))).toMatch(
    /31 Jan 2027 28 Feb 2027 31 Mar 2027 30 Apr 2027 31 May 2027/,
  );
});

describe("a change", () => {
  test("of the title leaves the rhythm, of the months counts anew from the next turn", async () => {
    const { path } = await start({ everyMonths: "1" });
    const read = () => as("office").get(`/api/v1${path}`);
    await openRecurringInspections(work.service.db, new Date("2027-01-02T12:00:00Z"), (error) => {
      throw error;
    });
    expect((await read()).body.nextDueOn).toBe("2027-02-28");
    const fields = { planId: work.planId, nextDueOn: "2027-02-28", horizonDays: "10" };
    const save = async (more: object) => {
      const { version } = hiddenFields(await page(path), "<main");
      return post(path, { version, title: "Look-over", everyMonths: "1", ...fields, ...more });
    };
    expect((await save({ title: "Monthly look-over" })).status).toBe(303);
    expect(words(await page(path))).toMatch(/28 Feb 2027 31 Mar 2027/);
    expect((await save({ everyMonths: "2" })).status).toBe(303);
    expect(words(await page(path))).toMatch(/28 Feb 2027 28 Apr 2027/);
    const odd = await save({ everyMonths: "0" });
    expect([odd.status, odd.text]).toMatchObject([422, /id="everyMonths-problem"/]);
    const stale = await post(path, { version: "1", title: "Late", everyMonths: "2", ...fields });
    expect([stale.status, words(stale.text)]).toMatchObject([422, /changed since you read it/]);
  });
});

test("one is paused and resumed, and each is undone", async () => {
  const { siteId, list, path } = await start();
  const { version } = hiddenFields(list, `${path}/pause`);
  const paused = await post(`${path}/pause`, { version, ended: "true" });
  const shown = await page(paused.headers.location as string);
  expect(words(shown)).toContain("Paused: Look-over at");
  expect(words(await page(`${PATH}?siteId=${siteId}`))).toContain("No inspection comes round");
  expect(words(await page(`${PATH}?siteId=${siteId}&ended=true`))).toContain("paused");
  const resumed = await post(`${path}/pause`, banner(shown));
  expect(words(await page(resumed.headers.location as string))).toContain("Resumed: Look-over at");
  expect(words(await page(`${PATH}?siteId=${siteId}`))).toContain("31 Jan 2027");
  const twice = await post(`${path}/pause`, { version, ended: "true" });
  expect([twice.status, words(twice.text)]).toMatchObject([412, /changed since you read it/]);
});

describe("a removal", () => {
  test("is undone once, however often it is asked", async () => {
    const { siteId, path } = await start({ firstDueOn: "2029-01-31" });
    const removed = await post(`${path}/removal`, {});
    expect(words(removed.text)).toContain("Removed: Look-over at");
    expect((await post(`${path}/removal`, {})).headers.location).toBe(PATH);
    const undo = banner(removed.text);
    for (const _twice of [1, 2]) expect((await post(`${PATH}/restoration`, undo)).status).toBe(303);
    const again = await as("office").get(`/api/v1/recurring-inspections?siteId=${siteId}`);
    expect(again.body.items).toMatchObject([{ nextDueOn: "2029-01-31", horizonDays: 30 }]);
  });

  test("of one that has opened a job is refused, over the interface too", async () => {
    const { path } = await start({ firstDueOn: "2027-03-31" });
    await openRecurringInspections(work.service.db, new Date("2027-03-02T12:00:00Z"), (error) => {
      throw error;
    });
    const refused = await post(`${path}/removal`, {});
    expect([refused.status, words(refused.text)]).toMatchObject([409, /Pause it instead/]);
    const api = await as("office").delete(`/api/v1${path}`);
    expect([api.status, api.body.type]).toEqual([409, "/problems/conflict"]);
    const fresh = await start({ firstDueOn: "2029-01-31" });
    expect((await as("office").delete(`/api/v1${fresh.path}`)).status).toBe(204);
    expect((await as("office").delete(`/api/v1${fresh.path}`)).status).toBe(404);
  });
});

test("what is typed wrong comes back, and only who plans work changes any", async () => {
  const { path, siteId } = await start();
  const wish = { siteId, planId: work.planId, title: "Typed", everyMonths: "12", horizonDays: "" };
  const refused = await post(PATH, { ...wish, firstDueOn: "" });
  expect(refused.status).toBe(422);
  expect(refused.text).toMatch(/id="firstDueOn-problem"/);
  expect(refused.text).toContain('value="Typed"');
  for (const role of ["installer", "auditor"] as const) {
    expect(await page(PATH, role)).not.toContain("/pause");
    expect((await as(role).get(path)).status).toBe(403);
    expect((await post(`${path}/removal`, {}, role)).status).toBe(403);
  }
});
