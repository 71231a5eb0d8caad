// The first page of each role in a browser: what needs this person now, with the way to it.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import type { App } from "../../src/web/feature.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults } from "../support/browser-pages.ts";
import { configIn, DEMO_PASSWORD, type DemoDatabase, loadedDemo } from "../support/demo.ts";

let demo: DemoDatabase;
let app: App;
let browser: Browser;
let baseUrl: string;
beforeAll(async () => {
  demo = await loadedDemo(new Date());
  const config = configIn(demo.folder);
  app = await buildApp({ db: demo.db, config, jwtSecret: "the first page of each".repeat(2) });
  const address = await app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await app.close();
  await demo.end();
});

async function firstPage(email: string) {
  const page = await (await browser.newContext()).newPage();
  await page.goto(`${baseUrl}/sign-in`);
  await page.getByLabel("E-mail address").fill(email);
  await page.getByLabel("Password").fill(DEMO_PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL(`${baseUrl}/`);
  return page;
}

const OFFICE = ["Begun and not closed yet", "Instruments running out"];
test.each([
  ["ines@copperbeck.example", [...OFFICE, "Today's visits"], []],
  ["orla@copperbeck.example", [...OFFICE, "Longest overdue on firmware"], []],
  ["casimir@quietledger.example", ["Records ready to look at"], OFFICE],
  ["dev@copperbeck.example", ["Instruments running out"], ["Longest overdue on firmware"]],
])("%s sees what waits for their role, and not what waits for others", async (email, has, not) => {
  const page = await firstPage(email);
  const faults = consoleFaults(page);
  const sections = await page.locator("main h2").allTextContents();
  for (const one of has) expect(sections.map((text) => text.trim())).toContain(one);
  for (const one of not) expect(sections.map((text) => text.trim())).not.toContain(one);
  expect(await accessibilityFaults(page)).toEqual([]);
  const links = page.locator("main section a, main .card a");
  expect(await links.count()).toBeGreaterThan(0);
  await links.first().click();
  await page.waitForLoadState();
  expect(await page.locator("main h1").count()).toBe(1);
  expect(faults).toEqual([]);
  await page.context().close();
});

test("a job that is blocked says why, and leads to what is in the way", async () => {
  const page = await firstPage("orla@copperbeck.example");
  const blocked = page.locator("li", { hasText: "things in the way" }).first();
  expect(await blocked.textContent()).toMatch(/needed|no answer yet|out of calibration/);
  await blocked.getByRole("link").first().click();
  await page.getByRole("heading", { name: "What stands in the way" }).waitFor();
  await page.context().close();
});
