// Working hours on pages, as they come without any script.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { USUAL_WEEK, weekMinutes } from "../../src/domain/scheduling/work-week.ts";
import { pageForms, words } from "../support/page-forms.ts";
import { startWork, type Work } from "../support/work-rows.ts";

let work: Work;
let ash: string;
beforeAll(async () => {
  work = await startWork();
  ash = await work.rows.person("Bo Ash");
});
afterAll(() => work.service.stop());

const { as, page } = pageForms(() => work);
const rowOf = (html: string, name: string): string => {
  const row = html.slice(html.indexOf(`<th scope="row">${name}`));
  return words(row.slice(0, row.indexOf("</tr>")));
};
const personPath = () => `/working-hours/people/${ash}`;
const save = async (
  path: string,
  fields: object,
  role: "office" | "installer" | "manager" | "auditor" = "office",
) => {
  const [, version] = /name="version" value="(\d+)"/.exec(await page(path)) ?? [];
  return as(role)
    .post(path)
    .type("form")
    .send({ version, ...fields });
};
const days = (weekdays: number[], from: string, to: string) =>
  Object.fromEntries(
    weekdays.flatMap((day) => [
      [`from${day}`, from],
      [`to${day}`, to],
    ]),
  );

test("a week is told in hours by its clock times", () => {
  // Five days of nine hours are 45; three and three quarters once more are 48.75 (arithmetic).
  expect(weekMinutes(USUAL_WEEK) / 60).toBe(45);
  expect(weekMinutes([...USUAL_WEEK, { weekday: 6, from: "08:15", to: "12:00" }]) / 60).toBe(48.75);
  expect(weekMinutes([])).toBe(0);
});

test("the firm says its week and whose holidays it keeps, and everybody works so", async () => {
  expect(words(await page("/working-hours"))).toContain("usual hours; the firm has not said");
  const week = days([1, 2, 3, 4], "07:00", "16:30");
  const saved = await save("/working-hours/firm", { ...week, country: "GB", region: "SCT" });
  expect(saved.headers.location).toBe("/working-hours?saved=1");
  const shown = await page("/working-hours");
  expect(rowOf(shown, "The firm")).toMatch(/The firm 07:00– 16:30 .* 38 h Change/);
  expect(rowOf(shown, "Bo Ash")).toMatch(/as the firm .*38 h/);
  expect(words(shown)).toContain("Public holidays kept: United Kingdom, SCT.");
  // 2 January is a bank holiday in Scotland alone (Banking and Financial Dealings Act 1971, from
  // memory); in 2026 it is a Friday.
  expect(words(await page("/absences?month=2026-01"))).toMatch(/Friday, 2 January 2026/);
});

describe("a person's own hours", () => {
  test("hold until the firm's are taken up again", async () => {
    const own = { ...days([2, 3], "10:00", "14:45"), own: "true" };
    expect((await save(personPath(), own)).status).toBe(303);
    expect(rowOf(await page("/working-hours"), "Bo Ash")).toMatch(/own hours .*9\.5 h/);
    const form = await page(personPath());
    expect(form).toMatch(/name="to2" value="14:45"/);
    expect((await save(personPath(), { ...own, own: "false" })).status).toBe(303);
    expect(rowOf(await page("/working-hours"), "Bo Ash")).toContain("as the firm");
  });

  test("leave visits where they are, and those outside are told with a link", async () => {
    expect(words(await page("/working-hours"))).toContain("No coming visit lies outside");
    const crewId = await work.rows.crew("North crew", [ash]);
    const jobId = await work.rows.job(work.siteId, work.planVersionId);
    const local = { day: "2026-12-01", from: "09:00", to: "12:00" };
    await as("office").post(`/api/v1/jobs/${jobId}/visits`).send({ crewId, local });
    // 1 December 2026 is a Tuesday (ISO 8601 calendar).
    await save(personPath(), days([2], "09:30", "17:00"));
    const shown = await page("/working-hours");
    expect(words(shown)).toMatch(/Bo Ash: J-\w+ 2026-12-01 09:00 to 12:00 \(Europe\/London\)/);
    expect(shown).toContain(`href="/jobs/${jobId}"`);
    await save(personPath(), days([2], "09:00", "12:00"));
    expect(words(await page("/working-hours"))).toContain("No coming visit lies outside");
  });

  test.each([
    [{ from3: "09:00", to3: "" }, "Wednesday: must be a time of day"],
    [{ from4: "12:00", to4: "12:00" }, "Thursday: must be later than from"],
  ])("of %j come back with what was typed", async (fields, told) => {
    const refused = await save(personPath(), { ...days([1], "07:45", "16:00"), ...fields });
    expect([refused.status, words(refused.text)]).toMatchObject([422, expect.anything()]);
    expect(words(refused.text)).toContain(told);
    expect(refused.text).toContain('name="from1" value="07:45"');
  });

  test("are not written over those that somebody else saved meanwhile", async () => {
    const fields = { version: "1", ...days([1], "08:00", "16:00") };
    const refused = await as("office").post(personPath()).type("form").send(fields);
    expect([refused.status, words(refused.text)]).toMatchObject([422, /changed since you read/]);
  });
});

describe("hours from a day to come", () => {
  // The clock stands on 20 November 2026; 7 December is a Monday (ISO 8601 calendar).
  const plan = (fields: object) =>
    save(personPath(), { ...days([1, 2], "06:00", "14:00"), validFrom: "2026-12-07", ...fields });

  test("are planned beside those of today, and hold from that day on", async () => {
    await save(personPath(), days([1, 2], "09:00", "17:00"));
    expect((await plan({})).status).toBe(303);
    expect(rowOf(await page("/working-hours"), "Bo Ash")).toMatch(
      /other hours from 7 Dec 2026 09:00– 17:00/,
    );
    const told = words(await page(personPath()));
    expect(told).toMatch(/From 7 Dec 2026 on other hours are planned: 16 h a week\. Monday 06:00/);
    const crewId = await work.rows.crew("South crew", [ash]);
    const jobId = await work.rows.job(work.siteId, work.planVersionId);
    const path = `/api/v1/jobs/${jobId}/first-free?crewId=${crewId}&minutes=60&days=1`;
    for (const [day, from] of [
      ["2026-11-24", "09:00"],
      ["2026-12-07", "06:00"],
    ]) {
      const { body } = await as("office").get(`${path}&from=${day}`);
      expect(body.suggestions[0]).toMatchObject({ day, from });
    }
  });

  test("take the place of others that were planned, and go where hours hold now", async () => {
    await plan({ validFrom: "2026-12-14" });
    const read = async () => (await as("office").get(`/api/v1/people/${ash}/working-hours`)).body;
    expect((await read()).next.validFrom).toBe("2026-12-14");
    await plan({ own: "false" });
    expect(await read()).toMatchObject({
      ...{ isOwn: true, next: { validFrom: "2026-12-07", week: null } },
    });
    expect(words(await page(personPath()))).toMatch(/on the firm.{1,6}s hours are planned/);
    await save(personPath(), days([1], "09:00", "12:00"));
    expect((await read()).next).toBeNull();
  });

  test("are told where the day is none", async () => {
    const refused = await plan({ validFrom: "2026-02-30" });
    expect(refused.status).toBe(422);
    expect(refused.text).toContain('name="from1" value="06:00"');
  });
});

test("a region that its country has not is refused beside what was typed", async () => {
  const refused = await save("/working-hours/firm", { country: "GB", region: "XYZ" });
  expect(refused.status).toBe(422);
  expect(words(refused.text)).toContain("must be a subdivision of the country");
  expect(refused.text).toContain('value="XYZ"');
});

test("installers see the firm's hours and their own; only the office changes any", async () => {
  const seen = await page("/working-hours", "installer");
  expect(seen).toContain("installer person");
  expect(seen).not.toContain("Bo Ash");
  expect(seen).not.toContain("/working-hours/firm");
  expect(await page("/working-hours", "auditor")).toContain("Bo Ash");
  for (const role of ["installer", "manager", "auditor"] as const) {
    expect((await as(role).get(personPath())).status).toBe(403);
    expect((await save(personPath(), days([1], "08:00", "16:00"), role)).status).toBe(403);
  }
});
