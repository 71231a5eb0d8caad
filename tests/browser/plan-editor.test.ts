// A plan from its first item to its second published version, in a browser and without touching
// its document: built, tried with answers that fail and pass, published, changed, compared, used.
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { addSite } from "../support/stock.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;
beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage());
});
afterAll(() => close());

const press = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).click();
const isAccessible = async (page: Page) => expect(await accessibilityFaults(page)).toEqual([]);
const shown = (page: Page, text: string) => page.getByText(text).first().waitFor();
/** Nobody has to read or write what a program does. */
const showsNoDocument = async (page: Page) =>
  expect(await page.locator("main").textContent()).not.toMatch(/"schema"|\{"|"kind":/);

async function begin(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Begin a plan of your own" }).click();
  await page.getByLabel("Code").fill("GARAGE");
  await page.getByLabel("Title").fill("Garage pack");
  await press(page, "Begin the plan");
  await shown(page, "This plan has no stage yet.");
  await page.getByLabel("Name of the stage").fill("Electrical");
  await press(page, "Add the stage");
}

async function addVoltage(page: Page): Promise<void> {
  await page.getByLabel("Kind").selectOption({ label: "measure" });
  await page.getByLabel("Name of the item").fill("Pack voltage");
  await press(page, "Add the item");
  await page.getByLabel("What to do").fill("Measure at the terminals.");
  await page.getByLabel("Unit", { exact: true }).selectOption("V");
  // Of the forms of a limit only the chosen one has its fields.
  expect(await page.getByLabel("Tolerance either way").isVisible()).toBe(false);
  await page.getByLabel("Acceptance limit").selectOption({ label: "a value with a tolerance" });
  expect(await page.getByLabel("Tolerance either way").isVisible()).toBe(true);
  await page.getByLabel("Acceptance limit").selectOption({ label: "a range" });
  await page.getByLabel("Least (optional)", { exact: true }).fill("43.2");
  await page.getByLabel("Most (optional)", { exact: true }).fill("55.2");
  await isAccessible(page);
  await press(page, "Save");
  await shown(page, "43.2 to 55.2 V");
}

async function tryIt(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Try it" }).click();
  await shown(page, "The gate would open.");
  await page.getByLabel("Pack voltage").fill("36.9");
  await press(page, "Judge again");
  await shown(page, "1 thing would stand in the way");
  await shown(page, "Read 36.9 V; needed at least 43.2 V and at most 55.2 V.");
  await page.getByLabel("Pack voltage").fill("50");
  await press(page, "Judge again");
  await shown(page, "The gate would open.");
  await isAccessible(page);
  await showsNoDocument(page);
}

test("is built, tried, published, changed, compared and found where it is used", async () => {
  const page = await signedInPage(browser, baseUrl, "/plans", { role: "manager" });
  page.setDefaultTimeout(8_000);
  const faults = consoleFaults(page);
  await begin(page);
  const version = page.url();
  await addVoltage(page);
  await tryIt(page);
  await page.goto(version);
  await press(page, "Publish");
  await page.getByRole("link", { name: "Version 1", exact: true }).click();
  await shown(page, "It does not change any more; a new version begins from it.");
  await showsNoDocument(page);
  await page.getByRole("link", { name: "GARAGE Garage pack" }).click();
  const planId = page.url().split("/").at(-1);
  await press(page, "Start a new version");
  await page.getByRole("link", { name: "Pack voltage" }).click();
  await page.getByLabel("Least (optional)", { exact: true }).fill("45");
  await press(page, "Save");
  await page.getByRole("link", { name: "Against version 1" }).click();
  expect(await page.locator("main").textContent()).toMatch(/stricter/);
  await isAccessible(page);
  const site = await addSite(service);
  const office = service.as(service.firm.people.office);
  const job = { siteId: site.id, kind: "inspection", planId, title: "Look at the pack" };
  expect((await office.post("/api/v1/jobs").send(job)).status).toBe(201);
  await page.goto(`${baseUrl}/plans/${planId}`);
  const used = page.locator("section", { hasText: "Latest jobs that work by it" });
  expect(await used.textContent()).toMatch(/Look at the pack.*1.*open/s);
  expect(faults).toEqual([]);
  await page.context().close();
}, 90_000);
