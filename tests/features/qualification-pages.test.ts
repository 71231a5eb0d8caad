// Qualifications on pages, as they come without any script.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { hiddenFields, pageForms, words } from "../support/page-forms.ts";
import { startWork, type Work } from "../support/work-rows.ts";

/** The clock of the work stands on 20 November 2026. */
let work: Work;
let ash: string;
let kindId: string;
beforeAll(async () => {
  work = await startWork();
  ash = await work.rows.person("Bo Ash");
  await post("/qualifications/kinds", { name: "DC work", warnDays: "60" });
  const [, id = ""] = /\/qualifications\/kinds\/([0-9a-f-]{36})/.exec(await page(RULES)) ?? [];
  kindId = id;
});
afterAll(() => work.service.stop());

const RULES = "/qualifications/rules";
const { post, page } = pageForms(() => work);
const record = (fields: object) =>
  post("/qualifications", { personId: ash, kindId, validFrom: "2024-01-01", ...fields });
const linesOf = (html: string): string[] => {
  const list = html.slice(html.indexOf('id="list-head"'), html.indexOf('id="new"'));
  return [...list.matchAll(/<tr>\s*<td>(.*?)<\/tr>/gs)].map(([line]) => words(line).trim());
};

test("what runs out first stands first, without what a later one stands in for", async () => {
  const people = [];
  for (const name of ["Cy Elm", "Dee Fir", "Eve Gum"]) people.push(await work.rows.person(name));
  const [elm, fir, gum] = people;
  await record({ validTo: "2026-11-19" });
  // The last of 60 days of warning: 20 November + 60 days = 19 January (ISO 8601 calendar).
  await record({ personId: elm, validTo: "2027-01-19" });
  await record({ personId: fir, validTo: "2027-01-20" });
  await record({ personId: gum, validTo: "" });
  const lines = linesOf(await page("/qualifications"));
  expect(lines.map((line) => line.replace(/ DC work.*/, ""))).toEqual([
    "✕ ended 19 Nov 2026 Bo Ash",
    "▲ 19 Jan 2027, in 60 days Cy Elm",
    "✓ 20 Jan 2027 Dee Fir",
    "✓ does not run out Eve Gum",
  ]);
  expect(linesOf(await page("/qualifications?within=30"))).toHaveLength(1);
  expect(linesOf(await page("/qualifications?sort=-person"))[0]).toContain("Eve Gum");
  await record({ validFrom: "2026-11-20", validTo: "2029-11-19", number: "Q-7" });
  const renewed = linesOf(await page(`/qualifications?personId=${ash}`));
  expect(renewed).toEqual([expect.stringContaining("✓ 19 Nov 2029 Bo Ash DC work")]);
  expect(linesOf(await page(`/qualifications?personId=${ash}&earlier=true`))).toHaveLength(2);
  expect(words(await page("/qualifications"))).toContain("Bo Ash ✓ 19 Nov 2029 Cy Elm ▲");
});

test("a qualification is changed, removed and put back once", async () => {
  const hay = await work.rows.person("Fay Hay");
  await record({ personId: hay, validTo: "2028-01-31", issuedBy: "Training board" });
  const own = `/qualifications?personId=${hay}`;
  const [, path = ""] =
    /href="(\/qualifications\/[0-9a-f-]{36})" aria-label="Change/.exec(await page(own)) ?? [];
  const form = await page(path);
  expect(form).toContain('value="2028-01-31"');
  const { version } = hiddenFields(form, "<main");
  const edit = { version, validFrom: "2024-01-01", validTo: "", number: "Q-9", issuedBy: "" };
  expect((await post(path, edit)).status).toBe(303);
  const changed = linesOf(await page(own))[0];
  expect(changed).toMatch(/does not run out .* Q-9/);
  expect(changed).not.toContain("Training board");
  const stale = await post(path, edit);
  expect([stale.status, words(stale.text)]).toMatchObject([422, /changed since you read it/]);
  const removed = await post(`${path}/removal`, {});
  expect(words(removed.text)).toContain("Removed: DC work of Fay Hay.");
  expect(linesOf(await page(own))).toEqual([]);
  expect((await post(`${path}/removal`, {})).headers.location).toBe("/qualifications");
  const undo = hiddenFields(removed.text, 'role="status"');
  for (const _twice of [1, 2]) {
    expect((await post("/qualifications/restoration", undo)).status).toBe(303);
  }
  expect(linesOf(await page(`${own}&earlier=true`))).toEqual([changed]);
});

test.each([
  [{ validTo: "2023-12-31" }, "validTo"],
  [{ validFrom: "" }, "validFrom"],
  [{ personId: "" }, "personId"],
  [{ kindId: "00000000-0000-4000-8000-000000000000" }, "kindId"],
])("%j comes back beside its field", async (fields, field) => {
  const refused = await record({ number: "Typed", ...fields });
  expect(refused.status).toBe(422);
  expect(refused.text).toContain(`id="${field}-problem"`);
  expect(refused.text).toContain('value="Typed"');
});

describe("what jobs ask for", () => {
  test("is asked, refused twice, no longer asked and asked again", async () => {
    expect(words(await page(RULES))).toContain("No kind of job asks for a qualification.");
    const rule = { jobKind: "install", kindId, askedOf: "someone" };
    expect((await post(RULES.replace("rules", "requirements"), rule)).status).toBe(403);
    const ask = () => post("/qualifications/requirements", rule, "manager");
    expect((await ask()).status).toBe(303);
    expect(words((await ask()).text)).toContain("ask for DC work already");
    const shown = await page(RULES, "manager");
    expect(words(shown)).toContain("installation DC work at least one of the crew");
    expect(await page(RULES)).not.toContain("/removal");
    const [, path = ""] = /action="(\/qualifications\/requirements\/[^"]+)"/.exec(shown) ?? [];
    const removed = await post(path, {}, "manager");
    expect(words(removed.text)).toContain("No longer asked: DC work for installation.");
    expect(
      (
        await post(
          "/qualifications/requirements",
          hiddenFields(removed.text, 'role="status"'),
          "owner",
        )
      ).status,
    ).toBe(303);
    expect(words(await page(RULES))).toContain("installation DC work at least one of the crew");
  });

  test("kinds are named once, renamed and archived", async () => {
    const twice = await post("/qualifications/kinds", { name: "DC work", warnDays: "10" });
    expect([twice.status, words(twice.text)]).toMatchObject([422, /named DC work already/]);
    const odd = await post("/qualifications/kinds", { name: "First aid", warnDays: "400" });
    expect([odd.status, odd.text]).toMatchObject([422, /id="warnDays-problem"/]);
    await post("/qualifications/kinds", { name: "First aid", warnDays: "30" });
    const [, path = ""] =
      /href="(\/qualifications\/kinds\/[^"]+)">First aid/.exec(await page(RULES)) ?? [];
    const { version } = hiddenFields(await page(path), "<main");
    const change = { version, name: "First aid at work", warnDays: "45", archived: "true" };
    expect((await post(path, change)).status).toBe(303);
    expect(words(await page(RULES))).toContain("No longer given: First aid at work");
    expect(await page("/qualifications")).not.toContain("First aid at work");
  });
});

test("installers see their own alone, auditors all, and neither changes any", async () => {
  await record({ personId: work.service.firm.people.installer.id, number: "Own-1" });
  const seen = await page("/qualifications", "installer");
  expect(seen).toContain("Own-1");
  expect(seen).not.toContain("Bo Ash");
  expect(seen).not.toContain('method="post" action="/qualifications');
  expect(linesOf(await page(`/qualifications?personId=${ash}`, "installer"))).toHaveLength(1);
  expect(await page("/qualifications", "auditor")).toContain("Bo Ash");
  for (const role of ["installer", "auditor"] as const) {
    expect((await post("/qualifications", { personId: ash, kindId }, role)).status).toBe(403);
  }
});

test("people beyond the first forty stand on further pages of the table", async () => {
  const numbers = Array.from({ length: 41 }, (_, at) => String(at).padStart(2, "0"));
  for (const number of numbers) await work.rows.person(`Aa ${number}`);
  const first = await page("/qualifications");
  expect(first).toContain('<th scope="row">Aa 39</th>');
  expect(first).not.toContain('<th scope="row">Aa 40</th>');
  const [, next = ""] = /rel="next" href="(\/qualifications\?people=\d+)"/.exec(first) ?? [];
  const second = await page(next);
  expect(second).toContain('<th scope="row">Aa 40</th>');
  expect(second).toContain('<th scope="row">Bo Ash</th>');
  expect(second).not.toContain('<th scope="row">Aa 39</th>');
  expect(second).toContain('rel="prev" href="/qualifications?people=1"');
});
