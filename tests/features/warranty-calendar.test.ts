// The calendar of warranties, and readings by form.
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pageForms, words } from "../support/page-forms.ts";
import { addModel, addSite, install, type Made, receive } from "../support/stock.ts";

let service: TestService;
let units: [Made, Made];
const { post, page, as } = pageForms(() => ({ service }) as never);

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T12:00:00Z") });
  const model = await addModel(service);
  const site = await addSite(service);
  const terms = { appliesFrom: "2020-01-01", years: 2, registerWithinDays: 60 };
  const more = { evidenceNeeded: false, throughputKwh: 1000 };
  await as("manager")
    .post(`/api/v1/product-models/${model.id}/warranty-terms`)
    .send({ ...terms, ...more, temperature: { lowest: 0, highest: 45 } });
  const installed = async (at: string) => {
    const unit = await receive(service, model.id);
    await install(service, unit, site, { at });
    return unit;
  };
  units = [await installed("2026-11-01T10:00:00Z"), await installed("2026-11-02T10:00:00Z")];
});
afterAll(() => service.stop());

test("the calendar counts by month what ends and what is to be registered", async () => {
  const year = async (number: number) =>
    (await as("office").get(`/api/v1/warranty/calendar?year=${number}`)).body.months;
  // Sixty days after 1 and 2 November: 31 December 2026 and 1 January 2027.
  expect((await year(2026)).at(-1)).toEqual({ month: "2026-12", register: 1, ends: 0 });
  expect((await year(2027))[0]).toEqual({ month: "2027-01", register: 1, ends: 0 });
  expect((await year(2028))[10]).toEqual({ month: "2028-11", register: 0, ends: 2 });
  const shown = words(await page("/warranty/calendar?month=2026-12"));
  expect(shown).toContain(`31 Dec 2026 ▲ register by ${units[0].serial}`);
  expect(shown).not.toContain(units[1].serial);
  expect(words(await page("/warranty/calendar?year=2028"))).toMatch(/1 Nov 2028 ■ warranty ends/);
  expect((await as("installer").get("/warranty/calendar")).status).toBe(403);
});

test("readings are entered and taken back by form, and the state follows", async () => {
  const path = `/units/${units[0].id}/warranty/readings`;
  const typed = { readOn: "2026-11-25", throughputKwh: "1000" };
  const half = await post(path, { ...typed, temperatureLowest: "5" }, "installer");
  expect([half.status, half.text.includes("Give both temperatures or none.")]).toEqual([422, true]);
  const kept = await post(path, typed, "installer");
  expect(words(kept.text)).toMatch(/expired its throughput is used up/);
  expect(words((await post(path, typed)).text)).toContain("has a reading of 2026-11-25 already");
  const [, readingId] = /name="readingId" value="([^"]+)"/.exec(await page(path)) as string[];
  expect((await post(`${path}/removal`, { readingId }, "installer")).status).toBe(403);
  expect((await post(`${path}/removal`, { readingId })).status).toBe(303);
  expect(words(await page(path))).toMatch(/at risk.*No reading has been entered/);
});
