// What an auditor reads on every page: until which day they see what; louder in the last three
// days.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { auditLine } from "../../src/web/audit-line.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import {
  accessibilityFaults,
  consoleFaults,
  contrastFaults,
  signedInPage,
} from "../support/browser-pages.ts";

const within = { period: null, models: [] as string[], siteCount: 0 };
const period = { from: "2026-01-01", to: "2026-06-30" };

test.each([
  [{ within }, "Audit access without a last day: the whole firm."],
  [
    { within, untilOn: "2026-12-10", daysLeft: 3 },
    "Audit access until 10 Dec 2026: the whole firm.",
  ],
  [
    { within: { ...within, siteCount: 1, models: ["HB-5"] }, untilOn: "2026-12-10", daysLeft: 9 },
    "Audit access until 10 Dec 2026: product model HB-5; 1 site.",
  ],
  [
    { within: { period, siteCount: 12, models: ["A", "B"] }, untilOn: "2026-12-10", daysLeft: 9 },
    "Audit access until 10 Dec 2026: jobs closed or visited from 1 Jan 2026 to 30 Jun 2026; " +
      "product models A, B; 12 sites.",
  ],
  [
    { within: { ...within, models: [..."ABCDEF"] }, untilOn: "2026-12-10", daysLeft: 9 },
    "Audit access until 10 Dec 2026: 6 product models.",
  ],
])("%j is told as %s", (standing, text) => {
  expect(auditLine(standing, "en")).toEqual({ text, isEnding: false });
});

test.each([
  [3, false, "until 10 Dec 2026:"],
  [2, true, "until 10 Dec 2026, 2 days after today:"],
  [1, true, "until 10 Dec 2026, 1 day after today:"],
  [0, true, "until 10 Dec 2026, its last day:"],
])("with %i days left it is ending: %s", (daysLeft, isEnding, words) => {
  const line = auditLine({ within, untilOn: "2026-12-10", daysLeft }, "en");
  expect(line?.isEnding).toBe(isEnding);
  expect(line?.text).toContain(words);
});

let service: TestService;
let browser: Browser;
let baseUrl: string;
let clock = new Date("2026-11-27T10:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => clock });
  baseUrl = await service.app.listen({ port: 0 });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});

test("stands on an auditor's pages and nobody else's, at 320 px too", async () => {
  const options = { role: "auditor", viewport: { width: 320, height: 800 } };
  const page = await signedInPage(browser, baseUrl, "/", options);
  const faults = consoleFaults(page);
  const line = page.locator(".audit-line");
  expect(await line.textContent()).toBe("Audit access until 27 Dec 2026: the whole firm.");
  clock = new Date("2026-12-25T10:00:00Z");
  for (const path of ["/", "/jobs", "/sites", "/account"]) {
    await page.goto(baseUrl + path);
    expect(await line.textContent(), path).toBe(
      "▲ Audit access until 27 Dec 2026, 2 days after today: the whole firm.",
    );
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(320);
  }
  expect(await accessibilityFaults(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: "dark" });
  expect(await contrastFaults(page)).toEqual([]);
  clock = new Date("2026-12-28T10:00:00Z");
  await page.goto(`${baseUrl}/jobs`);
  expect(await line.count()).toBe(0);
  expect(faults.filter((fault) => !fault.includes("403"))).toEqual([]);
  await page.context().close();
  clock = new Date("2026-11-27T10:00:00Z");
  const office = await service.as(service.firm.people.office).get("/").set("accept", "text/html");
  expect(office.text).not.toContain("audit-line");
});

test("tells it in Spanish", async () => {
  const standing = { within: { ...within, siteCount: 2 }, untilOn: "2026-12-10", daysLeft: 0 };
  expect(auditLine(standing, "es")?.text).toBe(
    "Acceso de auditoría hasta el 10 dic 2026, hoy es el último día: 2 instalaciones.",
  );
});
