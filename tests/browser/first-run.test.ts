// A firm with nothing in it, led in a browser from its founding to its first booked visit: at each
// step the test goes where the page of first steps sends it, and nowhere else but on from there.
import { rmSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import { setupCodeOf } from "../../src/features/first-run/setup-code.ts";
import type { App } from "../../src/web/feature.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults } from "../support/browser-pages.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";
import { configIn, temporaryFolder } from "../support/demo.ts";

const SECRET = "a secret of forty characters for the tests";
let database: TestDatabase;
let folder: string;
let app: App;
let browser: Browser;
let baseUrl: string;

beforeAll(async () => {
  database = await testDatabase();
  folder = temporaryFolder();
  app = await buildApp({ db: database.db, config: configIn(folder), jwtSecret: SECRET });
  const address = await app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await app.close();
  await database.drop();
  rmSync(folder, { recursive: true });
});

/** Each is filled by what its label begins with, a choice by a part of its text. */
async function fill(page: Page, fields: Record<string, string>): Promise<void> {
  for (const [name, value] of Object.entries(fields)) {
    const label = new RegExp(`^\\s*${name}`);
    const choice = page.locator("main select").and(page.getByLabel(label));
    if ((await choice.count()) > 0) {
      const option = choice.first().locator("option", { hasText: value }).first();
      await choice.first().selectOption(await option.getAttribute("value"));
    } else await page.locator("main").getByLabel(label).first().fill(value);
  }
}
const press = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).click();
const open = (page: Page, name: string | RegExp) =>
  page.getByRole("link", { name }).first().click();

/** Goes to the first step that is not done, which has to be this one. */
async function goTo(page: Page, step: string, done: number): Promise<void> {
  await page.goto(`${baseUrl}/begin`);
  expect(await page.locator(".tag.good").count()).toBe(done);
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await page.locator("a.button.main").getAttribute("aria-label")).toBe(`Go there: ${step}`);
  await page.locator("a.button.main").click();
}

async function found(page: Page): Promise<void> {
  await page.goto(baseUrl);
  await page.waitForURL(`${baseUrl}/start`);
  await fill(page, {
    ...{ "Setup code": setupCodeOf(SECRET), "Name of the firm": "Larch and Vane" },
    ...{ "Your name": "Ines Larch", "E-mail address": "ines@larch.example" },
    Password: "quiet lanterns drift",
  });
  await page.locator("main form button.main").click();
  await page.waitForURL(`${baseUrl}/begin`);
}

/** Whoever goes out, with what, for whom: each step has what it needs from those before. */
async function setUp(page: Page): Promise<void> {
  await goTo(page, "People who go to sites", 0);
  const invitation = page.locator('form[action="/people"]').last();
  await invitation.getByLabel("Name").fill("Ada Finch");
  await invitation.getByLabel("E-mail address").fill("ada@larch.example");
  await invitation.getByLabel("installer").check();
  await press(page, "Send the invitation");
  await goTo(page, "A crew", 1);
  await fill(page, { Name: "Brook crew" });
  await page.getByLabel("Ada Finch").check();
  await press(page, "Make up the crew");
  await goTo(page, "A product model", 2);
  await fill(page, {
    ...{ Code: "FERN-5", Name: "Fern 5 pack", Maker: "Fernhollow Storage" },
    ...{ Kind: "battery pack", "Serial number looks like": "FH#{8}" },
  });
  await press(page, "Save");
  await goTo(page, "Instruments", 3);
  await open(page, "New instrument");
  await fill(page, {
    ...{ Reference: "MM-1", Name: "Multimeter", Class: "multimeter" },
    ...{ "Serial number": "M-1", "% of the reading": "0.5" },
  });
  await press(page, "Save");
  await goTo(page, "A published plan", 4);
  await open(page, /site survey/i);
  await open(page, "Version 1");
  await press(page, "Publish");
}

async function book(page: Page): Promise<void> {
  await goTo(page, "A customer", 5);
  await open(page, "New customer");
  await fill(page, { Name: "Hanne Osei" });
  await press(page, "Save");
  await goTo(page, "A site", 6);
  await open(page, "New site");
  await fill(page, {
    ...{ Customer: "Hanne Osei", Address: "14 Larch Row", Town: "Northwick" },
    ...{
      Country: "United Kingdom",
      Region: "uk",
      Postcode: "NW0 4ZZ",
      Latitude: "52.19",
      Longitude: "-1.71",
      Supply: "TN-C-S",
    },
  });
  await press(page, "Save");
  await goTo(page, "A job", 7);
  await open(page, /Hanne Osei/);
  await fill(page, { Kind: "survey", Title: "Look at the cellar" });
  await press(page, "Open the job");
  await goTo(page, "Its first visit", 8);
  await open(page, /^J-/);
  await open(page, "Book a visit");
  await fill(page, { Crew: "Brook crew", Day: "2027-03-02", From: "09:00", To: "11:00" });
  await press(page, "Book the visit");
}

test("from nothing to the first booked visit, by the steps that are shown", async () => {
  const page = await (
    await browser.newContext({ viewport: { width: 1100, height: 900 } })
  ).newPage();
  const faults = consoleFaults(page);
  page.setDefaultTimeout(8_000);
  await found(page);
  await setUp(page);
  await book(page);
  await page.goto(`${baseUrl}/begin`);
  await page.getByText("The first visit is booked.").waitFor();
  await page.goto(`${baseUrl}/diary?day=2027-03-02`);
  expect(await page.locator("main").textContent()).toMatch(/09:00–11:00 J-\d{4}-0001/);
  expect(faults).toEqual([]);
}, 120_000);
