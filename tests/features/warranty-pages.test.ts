// The pages of a unit's warranty and of its model's terms, as forms without any script.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pageForms, words } from "../support/page-forms.ts";
import { addModel, addSite, install, type Made, receive } from "../support/stock.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
let service: TestService;
let model: Made;
let site: Made;
let unit: Made;
const { post, page, as } = pageForms(() => ({ service }) as never);

beforeAll(async () => {
  service = await startService({ now: () => NOW });
  model = await addModel(service);
  site = await addSite(service);
  unit = await receive(service, model.id);
  await install(service, unit, site, { at: "2026-11-01T10:00:00Z" });
});
afterAll(() => service.stop());

const TERMS = { appliesFrom: "2020-01-01", years: "10", registerWithinDays: "60" };

describe("a model's terms", () => {
  const path = () => `/product-models/${model.id}/warranty`;

  test("are stored from the form, shown on the model's page, and taken back", async () => {
    const kept = await post(path(), { ...TERMS, evidenceNeeded: "yes" }, "manager");
    expect(words(kept.text)).toContain("Version 1 is stored.");
    const shown = words(await page(`/product-models/${model.id}`));
    expect(shown).toMatch(/Version 1.*10 years from commissioning.*registered within 60 days/);
    expect(shown).toContain("the job of the unit closed");
    const back = await post(`${path()}/removal`, { number: "1" }, "manager");
    expect(back.text).toMatch(/name="years"[^>]*value="10"/);
    expect(words(await page(path()))).toContain("No warranty terms are stored");
  });

  test("name the field to be mended, and are the owner's and manager's to store", async () => {
    const half = { ...TERMS, temperatureLowest: "5" };
    const reply = await post(path(), half, "manager");
    expect([reply.status, reply.text.includes("Give both ends or none.")]).toEqual([422, true]);
    const level = { ...TERMS, firmwareLevel: "newest", firmwareWithinDays: "30" };
    const odd = await post(path(), level, "manager");
    expect(odd.text).toMatch(/id="firmwareLevel"[^>]*aria-invalid="true"/);
    expect((await post(path(), TERMS, "office")).status).toBe(403);
    expect(await page(path(), "office")).not.toContain("Store as a version");
  });
});

describe("a unit's warranty", () => {
  beforeAll(async () => {
    expect((await post(`/product-models/${model.id}/warranty`, TERMS, "manager")).status).toBe(200);
  });
  const path = () => `/units/${unit.id}/warranty`;

  test("stands on the pages of unit and site, with what a claim would lack", async () => {
    const shown = /at risk.*still to be registered/;
    const ofUnit = words(await page(`/units/${unit.id}`));
    expect(ofUnit).toMatch(shown);
    expect(ofUnit).toMatch(/Last day 1 Nov 2036.*register by 31 Dec 2026.*lack ▲ registration/);
    const ofSite = words(await page(`/sites/${site.id}`));
    expect(ofSite).toMatch(/at risk until 1 Nov 2036 still to be registered.*lack: registration/);
    expect(await page(path(), "installer")).not.toContain("registration/removal");
  });

  test("is registered, corrected and taken back, each with an undo", async () => {
    const registration = `${path()}/registration`;
    const first = { registeredOn: "2026-11-20", reference: "FS-1" };
    const early = await post(registration, { ...first, registeredOn: "2026-11-26" });
    expect([early.status, early.text.includes("is in the future")]).toEqual([422, true]);
    const kept = words((await post(registration, first)).text);
    expect(kept).toMatch(/The registration is noted\. Undo.*in term.*registered 20 Nov 2026, FS-1/);
    const corrected = await post(registration, { ...first, reference: "FS-2" });
    expect(corrected.text).toMatch(/type="hidden" name="reference" value="FS-1"/);
    const removed = await post(`${registration}/removal`, {});
    expect(removed.text).toMatch(/type="hidden" name="reference" value="FS-2"/);
    const twice = await post(`${registration}/removal`, {});
    expect([twice.status, twice.text.includes('role="status"')]).toEqual([200, false]);
    const life = await as("office").get(`/api/v1/units/${unit.id}/warranty`);
    expect(life.body.registration).toBeNull();
  });
});
