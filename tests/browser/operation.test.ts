// The operator's page in a browser: the token typed, the figures read, signed out; each of its
// states is accessible (axe-core, WCAG 2.2 AA), fits at 320 px, light and dark.

import { pino } from "pino";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startRuns } from "../../src/runs/start.ts";
import { startService, type TestService } from "../support/app.ts";
import { accessibilityFaults, consoleFaults, contrastFaults } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { whileAway } from "../support/database-away.ts";
import { OPERATOR_TOKEN } from "../support/operator.ts";
import { mailConfig } from "../support/smtp.ts";

const SIZES = "[document.documentElement.scrollWidth, document.documentElement.clientWidth]";
const WIDTHS = [320, 1280];
let service: TestService;
let browser: Browser;
let page: Page;
let baseUrl: string;
let close: () => Promise<void>;
let faults: string[];

beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage({
    environment: { METRICS_TOKEN: OPERATOR_TOKEN },
  }));
  // The queues are made by the scheduled work.
  const { db, ownerUrl, appUrl: url } = service;
  const runs = await startRuns({ db, ownerUrl, url }, mailConfig({}), pino({ level: "silent" }));
  await runs.stop();
  page = await (await browser.newContext()).newPage();
  faults = consoleFaults(page);
});
afterAll(() => close());

async function lookedAt(what: string): Promise<void> {
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ colorScheme: "light" });
    const light = await accessibilityFaults(page);
    await page.emulateMedia({ colorScheme: "dark" });
    expect([...light, ...(await contrastFaults(page))], `${what} at ${width} px`).toEqual([]);
    const [needed, given] = (await page.evaluate(SIZES)) as [number, number];
    expect(needed, `${what} at ${width} px`).toBe(given);
  }
}

const open = async (token: string): Promise<void> => {
  await page.getByLabel("Token").fill(token);
  await page.getByRole("button", { name: "Open" }).click();
};

test("the token opens the page, which works without the database, until signed out", async () => {
  await page.goto(`${baseUrl}/operation`);
  await lookedAt("the form");
  await open("another token of somebody");
  await page.getByRole("alert").waitFor();
  await lookedAt("the refusal");
  await open(OPERATOR_TOKEN);
  await page.getByRole("heading", { name: "What needs a hand" }).waitFor();
  expect(await page.getByRole("row").filter({ hasText: "send-mail" }).count()).toBe(1);
  await page.getByText("The largest tables").click();
  await lookedAt("the figures");
  await whileAway(service.ownerUrl, async () => {
    await page.getByRole("link", { name: "Look again" }).click();
    await page.getByText("The database does not answer.").waitFor();
    await lookedAt("the figures without the database");
  });
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.getByLabel("Token").waitFor();
  await page.goto(`${baseUrl}/operation`);
  expect(await page.getByLabel("Token").count()).toBe(1);
  expect((await page.context().cookies()).length).toBe(0);
  // The browser itself notes that the two refusals were none of the answers it hoped for.
  expect(faults.filter((fault) => !/status of (401|503)/.test(fault))).toEqual([]);
}, 60_000);

test("the page says how to set a token where none is, and is accessible", async () => {
  const without = await startService();
  const address = await without.app.listen({ port: 0, host: "127.0.0.1" });
  await page.goto(`${address.replace("127.0.0.1", "localhost")}/operation`);
  await page.getByText("openssl rand").waitFor();
  await lookedAt("the page without a token");
  await without.stop();
}, 30_000);
