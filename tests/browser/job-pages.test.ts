// Where a browser is the point: the picture viewer by keyboard, narrow and dark screens, print.

import type { Browser, Page } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;
let job: PracticeJob;

beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage());
  job = await addPracticeJob(service);
  const installer = service.as(service.firm.people.installer);
  await installer.post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers: job.answers() });
  for (const background of ["#a33", "#3a3", "#33a"]) await sendPhoto(background);
  await installer.post(`/api/v1/jobs/${job.jobId}/snags`).send({ title: "Lid missing" });
  await installer.post(`/api/v1/jobs/${job.jobId}/messages`).send({ text: "Nobody opens." });
});
afterAll(() => close());

async function sendPhoto(background: string): Promise<void> {
  const drawn = sharp({ create: { width: 640, height: 480, channels: 3, background } });
  const bytes = await drawn.png().toBuffer();
  const digest = await crypto.subtle.digest("SHA-256", new Uint8Array(bytes));
  await service
    .as(service.firm.people.installer)
    .put(`/api/v1/jobs/${job.jobId}/photos/${Buffer.from(digest).toString("hex")}`)
    .set("content-type", "image/png")
    .send(bytes);
}

const snagPath = (page: Page) => page.locator('a[href^="/snags/"]').first().getAttribute("href");

test("the picture viewer goes on by arrow keys, closes by Escape, gives focus back", async () => {
  const page = await signedInPage(browser, baseUrl, `/jobs/${job.jobId}`);
  const faults = consoleFaults(page);
  const links = page.locator("[data-photo]");
  expect(await links.count()).toBe(3);
  await links.first().focus();
  await page.keyboard.press("Enter");
  const dialog = page.getByRole("dialog");
  const shown = () => dialog.locator("img").getAttribute("src");
  const photo = (index: number) => links.nth(index).getAttribute("data-photo");
  expect(await shown()).toBe(await photo(0));
  expect(await dialog.getByRole("button", { name: "Newer" }).isDisabled()).toBe(true);
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  expect(await shown()).toBe(await photo(2));
  expect(await dialog.locator("p").textContent()).toContain("installer person · ");
  await page.keyboard.press("ArrowLeft");
  expect(await shown()).toBe(await photo(1));
  expect(await accessibilityFaults(page)).toEqual([]);
  await page.keyboard.press("Escape");
  expect(await dialog.isVisible()).toBe(false);
  // The close event is a task of its own (HTML, "close the dialog"): the focus goes on right after.
  const focused = () => page.evaluate("document.activeElement.dataset.photo");
  await expect.poll(focused).toBe(await photo(1));
  expect(faults).toEqual([]);
  await page.context().close();
});

test("without script a picture is a page with its neighbours", async () => {
  const signedIn = await signedInPage(browser, baseUrl, `/jobs/${job.jobId}`);
  const storageState = await signedIn.context().storageState();
  await signedIn.context().close();
  const context = await browser.newContext({ javaScriptEnabled: false, storageState });
  const page = await context.newPage();
  await page.goto(`${baseUrl}/jobs/${job.jobId}`);
  await page.locator("[data-photo]").first().click();
  await page.getByRole("link", { name: "Older" }).click();
  await page.getByRole("link", { name: "Newer" }).waitFor();
  expect(await page.locator("img.whole").getAttribute("alt")).toContain("installer person");
  await context.close();
});

test.each([
  { name: "320 px, dark", viewport: { width: 320, height: 640 }, colorScheme: "dark" as const },
  { name: "1280 px, light", viewport: { width: 1280, height: 900 }, colorScheme: "light" as const },
])("no page of jobs, kit and stock breaks WCAG 2.2 AA or its width at $name", async (look) => {
  const { viewport, colorScheme } = look;
  const page = await signedInPage(browser, baseUrl, `/jobs/${job.jobId}`, {
    ...{ viewport, colorScheme, role: "manager" },
  });
  const faults = consoleFaults(page);
  const at = `/jobs/${job.jobId}`;
  const paths = [
    ...["/jobs", "/jobs/new", `/jobs/new?siteId=${job.siteId}`, at, `${at}/visits/new`],
    ...[
      `${at}/readings`,
      `${at}/history`,
      `${at}/photos`,
      `${at}/kit`,
      (await snagPath(page)) ?? "",
    ],
    ...["/goods-in", "/goods-in/stock", "/goods-in/consumables", "/goods-in/tomorrow"],
  ];
  const found: string[] = [];
  for (const path of paths) {
    await page.goto(`${baseUrl}${path}`);
    found.push(...(await accessibilityFaults(page)).map((fault) => `${path}: ${fault}`));
    const width = Number(await page.evaluate("document.documentElement.scrollWidth"));
    if (width > viewport.width) found.push(`${path} is ${width} px wide`);
  }
  expect(found).toEqual([]);
  expect(faults).toEqual([]);
  await page.context().close();
});

test("the print sheet of a job opens every stage and leaves forms out", async () => {
  const page = await signedInPage(browser, baseUrl, `/jobs/${job.jobId}`, { role: "manager" });
  const row = page.locator("details.stage td").first();
  const form = page.locator('form[action$="/messages"]');
  expect([await row.isVisible(), await form.isVisible()]).toEqual([false, true]);
  await page.emulateMedia({ media: "print" });
  expect([await row.isVisible(), await form.isVisible()]).toEqual([true, false]);
  await page.context().close();
});
