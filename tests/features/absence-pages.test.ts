// Absences on pages, as they come without any script.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { hiddenFields, pageForms, words } from "../support/page-forms.ts";
import { startWork, type Work } from "../support/work-rows.ts";

let work: Work;
let ash: string;
beforeAll(async () => {
  work = await startWork();
  ash = await work.rows.person("Bo Ash");
});
afterAll(() => work.service.stop());

const { as, post, page } = pageForms(() => work);
const leave = (fields: object) => ({ personId: ash, reason: "leave", ...fields });

describe("a month", () => {
  test("has a column a day, weekends and public holidays marked", async () => {
    const sheet = (await page("/absences?month=2028-02")).replaceAll(/\s+/g, " ");
    // 2028 is a leap year, and its 1 February a Tuesday (ISO 8601 calendar).
    const days = [...sheet.matchAll(/title="([A-Z][a-z]+day), (\d+) February 2028"/g)];
    expect([days.length, days[0]?.[1], days[28]?.[1]]).toEqual([29, "Tuesday", "Tuesday"]);
    const row = sheet.slice(sheet.indexOf("Bo Ash</th>"));
    const own = row.slice(0, row.indexOf("</tr>"));
    expect(own.match(/class="off"/g)).toHaveLength(8);
  });

  test("names the public holidays of where the sites are while the firm has not said", async () => {
    // The site is in GB without a region; Christmas Day is kept in all of it
    // (Banking and Financial Dealings Act 1971 and common law, from memory).
    const told = words(await page("/absences?month=2026-12"));
    expect(told).toMatch(/✳ Friday, 25 December 2026: Christmas Day GB/);
    expect(words(await page("/absences?month=2026-02"))).toContain(
      "No public holiday falls in this month.",
    );
  });

  test("is the present one where none is asked for; one that is none is refused", async () => {
    expect(words(await page("/absences"))).toContain("Away in November 2026");
    expect((await as("office").get("/absences?month=2026-13")).status).toBe(422);
  });
});

test("an absence is entered, changed, removed and put back", async () => {
  const entered = await post("/absences", leave({ from: "2027-03-01", to: "2027-03-05" }));
  expect(entered.headers.location).toBe("/absences?month=2027-03");
  const month = await page("/absences?month=2027-03");
  expect(month).toMatch(/<td colspan="5" class="away">/);
  const [, path = ""] = /href="(\/absences\/[0-9a-f-]{36})" aria-label="Change/.exec(month) ?? [];
  const form = await page(path);
  expect(form).toContain('value="2027-03-05"');
  const { version } = hiddenFields(form, "<main");
  const days = { from: "2027-03-01", to: "2027-03-04" };
  const edit = { version, ...days, reason: "training", note: "Course" };
  expect((await post(path, edit)).status).toBe(303);
  const stale = await post(path, { ...edit, note: "Typed too late" });
  expect([stale.status, words(stale.text)]).toMatchObject([422, /changed since you read it/]);
  expect(stale.text).toContain("Typed too late");

  const removed = await post(`${path}/removal`, {});
  expect(words(removed.text)).toContain("Removed: Bo Ash, 1 Mar 2027 – 4 Mar 2027.");
  expect(words(await page("/absences?month=2027-03"))).toContain("Nobody is away in this month.");
  expect((await post(`${path}/removal`, {})).headers.location).toBe("/absences");
  const undo = hiddenFields(removed.text, 'role="status"');
  for (const _twice of [1, 2]) {
    expect((await post("/absences/restoration", undo)).headers.location).toBe(
      "/absences?month=2027-03",
    );
  }
  const again = words(await page("/absences?month=2027-03"));
  expect(again.match(/1 Mar 2027 – 4 Mar 2027 Training Course/g)).toHaveLength(1);
});

test("hours of a day are entered by the firm's clocks, and shown so in the form", async () => {
  const half = { from: "2027-06-10", to: "2027-06-10", fromTime: "13:00" };
  expect((await post("/absences", leave(half))).status).toBe(303);
  const month = await page("/absences?month=2027-06");
  expect(month).toContain(">L½<");
  // British Summer Time: until midnight, an hour before that of UTC.
  expect(words(month)).toContain("2027-06-10 13:00 to 2027-06-11 00:00");
  const [, path = ""] = /href="(\/absences\/[0-9a-f-]{36})" aria-label="Change/.exec(month) ?? [];
  const form = await page(path);
  expect(form).toMatch(/name="fromTime" type="time" value="13:00"/);
  expect(form).toMatch(/name="toTime" type="time" value=""/);
});

describe("a refusal", () => {
  test("names the visits that are booked in these days, each with a link", async () => {
    const crewId = await work.rows.crew("North crew", [ash]);
    const jobId = await work.rows.job(work.siteId, work.planVersionId);
    for (const day of ["2027-05-11", "2027-05-12"]) {
      const local = { day, from: "09:00", to: "12:00" };
      const sent = { crewId, local };
      expect((await as("office").post(`/api/v1/jobs/${jobId}/visits`).send(sent)).status).toBe(201);
    }
    const wish = leave({ from: "2027-05-10", to: "2027-05-14", note: "Wedding" });
    const refused = await post("/absences", wish);
    expect(refused.status).toBe(422);
    expect(words(refused.text)).toMatch(/Bo Ash is booked for J-\w+, .* and 1 more/);
    expect(refused.text.split(`href="/jobs/${jobId}"`)).toHaveLength(3);
    expect(words(refused.text)).toContain("2027-05-12 09:00 to 12:00");
    expect(refused.text).toContain('value="Wedding"');
    expect(words(refused.text)).toContain("Away in May 2027");
  });

  test("leads to the absence that is entered for these days already", async () => {
    await post("/absences", leave({ from: "2027-08-02", to: "2027-08-06" }));
    const twice = await post("/absences", leave({ from: "2027-08-06", to: "2027-08-09" }));
    expect(twice.text).toMatch(/entered as away already[^<]*<a href="\/absences\/[0-9a-f-]{36}"/);
  });

  test.each([
    [{ from: "2027-09-03", to: "2027-09-02" }, "to"],
    [{ from: "", to: "2027-09-02" }, "from"],
    [{ from: "2027-09-02", to: "2027-09-02", reason: "" }, "reason"],
    [{ from: "2027-09-02", to: "2027-09-02", fromTime: "12:00", toTime: "11:00" }, "to"],
  ])("of %j stands beside the field", async (fields, field) => {
    const refused = await post("/absences", leave(fields));
    expect(refused.status).toBe(422);
    expect(refused.text).toContain(`id="${field}-problem"`);
  });

  test("meets a removal that is undone after somebody was booked", async () => {
    await post("/absences", leave({ from: "2027-10-04", to: "2027-10-04" }));
    const month = await page("/absences?month=2027-10");
    const [, path = ""] = /action="(\/absences\/[^"]+\/removal)"/.exec(month) ?? [];
    const undo = hiddenFields((await post(path, {})).text, 'role="status"');
    await post("/absences", leave({ from: "2027-10-04", to: "2027-10-05" }));
    const refused = await post("/absences/restoration", undo);
    expect([refused.status, words(refused.text)]).toMatchObject([409, /entered as away already/]);
  });
});

test("installers see their own absences alone, and auditors none", async () => {
  const own = work.service.firm.people.installer.id;
  const day = { from: "2027-11-02", to: "2027-11-02" };
  await post("/absences", leave({ ...day, personId: own, note: "Own note" }));
  await post("/absences", leave({ ...day, note: "Not theirs" }));
  const seen = await page("/absences?month=2027-11", "installer");
  expect(words(seen)).toContain("Own note");
  expect(seen).not.toContain("Not theirs");
  expect(seen).not.toContain("Bo Ash");
  expect(seen).not.toContain('action="/absences');
  expect((await post("/absences", leave(day), "installer")).status).toBe(403);
  expect((await as("auditor").get("/absences")).status).toBe(403);
});
