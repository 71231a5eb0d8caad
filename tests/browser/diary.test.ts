import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { accessibilityFaults, consoleFaults } from "../support/browser-pages.ts";
import { DiaryStage } from "../support/diary-stage.ts";

let stage: DiaryStage;
beforeAll(async () => {
  stage = await DiaryStage.open();
});
afterAll(async () => stage?.close());
beforeEach(async () => stage.clear());

describe("a job is placed", () => {
  test("at the first free place in one click, and that is undone in one more", async () => {
    const page = await stage.page();
    await page.getByRole("link", { name: /Find a place/ }).click();
    await page
      .getByRole("button", { name: /^Book Dale on/ })
      .first()
      .click();
    await page.getByText("is booked.").waitFor();
    expect(await stage.booked()).toHaveLength(1);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByText("is called off.").waitFor();
    expect(await stage.booked()).toEqual([]);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByText("is booked.").waitFor();
    expect(await stage.booked()).toHaveLength(1);
    await page.context().close();
  });

  test("by a form, and a place that is taken is refused with who and when", async () => {
    const other = await stage.addJob();
    await stage.book("09:00", "12:00", "Dale", other);
    const page = await stage.page(`&job=${stage.jobId}`);
    await page.getByLabel("Crew", { exact: true }).selectOption({ label: "Dale" });
    await page.getByLabel("Day", { exact: true }).fill("2026-12-01");
    await page.getByLabel("From", { exact: true }).fill("11:00");
    await page.getByLabel("To", { exact: true }).fill("13:00");
    await page.locator("#at-hand button.main").click();
    const said = await page.getByRole("alert").textContent();
    expect(said).toContain("Dale");
    expect(said).toContain("2026-12-01 09:00");
    expect(await page.getByLabel("From", { exact: true }).inputValue()).toBe("11:00");
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.getByLabel("From", { exact: true }).fill("12:00");
    await page.locator("#at-hand button.main").click();
    await page.getByText("is booked.").waitFor();
    expect(await stage.booked()).toHaveLength(2);
    await page.context().close();
  });

  test("by dropping it onto a crew's day with the mouse", async () => {
    const page = await stage.page();
    const faults = consoleFaults(page);
    await page.setViewportSize({ width: 1200, height: 1400 });
    const cell = page.locator('.slots[data-day="2026-12-02"][data-crew-name="Fell"]');
    const from = await page.locator("[data-job]").first().boundingBox();
    const to = await cell.boundingBox();
    if (!from || !to) throw new Error("nothing to drag");
    await page.mouse.move(from.x + 20, from.y + 10);
    await page.mouse.down();
    await page.mouse.move(to.x + 30, to.y + 7 * 8 + 3, { steps: 8 });
    await page.mouse.up();
    await page.getByText("is booked.").waitFor();
    // Two hours after the first one shown, which is the crew's first, 08:00.
    expect((await stage.booked())[0]).toMatch(/^Fell 12-02T10:00 to/);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

async function visitWithInstrument(reference: string): Promise<string> {
  const office = stage.service.as(stage.service.firm.people.office);
  const instrument = await office.post("/api/v1/instruments").send({
    ...{ reference, name: "Multimeter", instrumentClass: "multimeter", serial: reference },
  });
  expect(instrument.status, JSON.stringify(instrument.body)).toBe(201);
  const visitId = await stage.book("09:00", "11:00");
  const visit = await office.get(`/api/v1/visits/${visitId}`);
  const kept = await office
    .patch(`/api/v1/visits/${visitId}`)
    .set("if-match", visit.headers.etag as string)
    .send({ note: "Ring from the gate", instrumentIds: [instrument.body.id] });
  expect(kept.status, JSON.stringify(kept.body)).toBe(200);
  return visitId;
}
const visitsOfTheDay = async () =>
  (
    await stage.service
      .as(stage.service.firm.people.office)
      .get("/api/v1/visits?from=2026-12-01&to=2026-12-01")
  ).body.items;

test("a visit that is called off comes back with its note and instruments", async () => {
  const page = await stage.page(`&visit=${await visitWithInstrument("DIARY-1")}`);
  await page.getByRole("button", { name: "Call the visit off" }).click();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByText("is booked.").waitFor();
  expect(await visitsOfTheDay()).toMatchObject([
    { note: "Ring from the gate", instruments: [{ reference: "DIARY-1" }] },
  ]);
  await page.context().close();
});

test("called off on the job's page it is taken back there, in one click", async () => {
  await visitWithInstrument("DIARY-2");
  const page = await stage.page("");
  await page.goto(`${stage.baseUrl}/jobs/${stage.jobId}`);
  await page.getByRole("button", { name: "Call off" }).click();
  await page.getByText("The visit of 1 Dec 2026, 09:00 is called off.").waitFor();
  expect(await visitsOfTheDay()).toEqual([]);
  expect(await accessibilityFaults(page)).toEqual([]);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.waitForURL(`${stage.baseUrl}/jobs/${stage.jobId}#visits`);
  expect(await visitsOfTheDay()).toMatchObject([
    { note: "Ring from the gate", instruments: [{ reference: "DIARY-2" }] },
  ]);
  await page.context().close();
});

test("of two browsers that book one place exactly one wins, and the other reads why", async () => {
  const other = await stage.addJob();
  const pages = await Promise.all([stage.page(`&job=${stage.jobId}`), stage.page(`&job=${other}`)]);
  for (const page of pages) {
    await page.getByLabel("Crew", { exact: true }).selectOption({ label: "Dale" });
    await page.getByLabel("Day", { exact: true }).fill("2026-12-03");
    await page.getByLabel("From", { exact: true }).fill("09:00");
    await page.getByLabel("To", { exact: true }).fill("12:00");
  }
  await Promise.all(pages.map((page) => page.locator("#at-hand button.main").click()));
  const answers = await Promise.all(
    pages.map(async (page) => {
      await page.locator(".note.good, .note.bad").first().waitFor();
      return (await page.locator(".note.good, .note.bad").first().textContent()) ?? "";
    }),
  );
  expect(answers.filter((text) => text.includes("is booked."))).toHaveLength(1);
  expect(answers.filter((text) => text.includes("Not booked."))[0]).toContain("Dale");
  expect(await stage.booked()).toEqual(["Dale 12-03T09:00 to 12-03T12:00"]);
  for (const page of pages) await page.context().close();
});

test("an installer sees the week and moves nothing", async () => {
  await stage.book("09:00", "11:00");
  const page = await stage.page("", { role: "installer" });
  await page.getByText("09:00–11:00").waitFor();
  expect(await page.locator("[data-movable], [data-job], #diary-hand").count()).toBe(0);
  await page.context().close();
});

test.each([
  ["light", 1280, "crew"],
  ["dark", 1280, "person"],
  ["light", 320, "person"],
  ["dark", 320, "crew"],
] as const)("is accessible and fits, %s at %d px by %s", async (colorScheme, width, by) => {
  const visitId = await stage.book("09:00", "11:00");
  const options = { colorScheme, viewport: { width, height: 900 } };
  const page = await stage.page(`&by=${by}&visit=${visitId}`, options);
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
  expect(await page.getByRole("status").count()).toBe(1);
  await page.context().close();
});
