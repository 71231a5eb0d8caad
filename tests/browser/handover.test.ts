import { mkdirSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { addTriedJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import { addPracticeJob } from "../support/practice-job.ts";

const OUTPUT = new URL("../output/", import.meta.url).pathname;
let stage: EvidenceStage;
let browser: Browser;
let baseUrl: string;
let path: string;
let openPath: string;
let linkPath: string;

beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  stage = await startEvidence(() => new Date());
  const { service } = stage;
  const { job } = await addTriedJob(service, "steady");
  path = `/jobs/${job.jobId}/handover`;
  openPath = `/jobs/${(await addPracticeJob(service)).jobId}/handover`;
  const office = service.as(service.firm.people.office);
  const links = `/api/v1/jobs/${job.jobId}/handover-links`;
  const ended = await office.post(links).send({});
  await office.delete(`/api/v1/handover-links/${ended.body.id}`);
  linkPath = new URL((await office.post(links).send({})).body.url).pathname;
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await stage.stop();
});

test("a link is made, opened without an account and ended with the keyboard alone", async () => {
  const page = await signedInPage(browser, baseUrl, path);
  page.setDefaultTimeout(9000);
  await page.getByLabel("Days that it opens").fill("7");
  await page.getByLabel("Days that it opens").press("Enter");
  const made = new URL(await page.getByLabel("Address").inputValue()).pathname;
  const stranger = await (await browser.newContext()).newPage();
  expect((await stranger.goto(`${baseUrl}${made}`))?.status()).toBe(200);
  await stranger.getByRole("link", { name: "Handover pack (PDF)" }).waitFor();
  await page
    .getByRole("button", { name: /^End the link made/ })
    .first()
    .press("Enter");
  await page
    .getByText(/^– ended/)
    .nth(1)
    .waitFor();
  expect((await stranger.reload())?.status()).toBe(404);
  await stranger.context().close();
  await page.context().close();
});

test.each([
  ["light", 1280],
  ["dark", 320],
] as const)("pages are accessible and fit, %s at %d px", async (colorScheme, width) => {
  const view = { colorScheme, viewport: { width, height: 800 } };
  const page = await signedInPage(browser, baseUrl, "/", view);
  const faults = consoleFaults(page);
  const look = async (name: string) => {
    expect(await accessibilityFaults(page), name).toEqual([]);
    const wide = await page.evaluate("document.documentElement.scrollWidth");
    expect(wide, name).toBeLessThanOrEqual(width);
    const file = `${OUTPUT}handover-${name}-${colorScheme}-${width}.png`;
    await page.screenshot({ path: file, fullPage: true });
  };
  for (const [name, address] of Object.entries({ job: path, open: openPath })) {
    await page.goto(`${baseUrl}${address}`);
    await look(name);
  }
  await page.goto(`${baseUrl}${path}`);
  await page.getByRole("button", { name: "Make the link" }).click();
  await page.getByLabel("Address").waitFor();
  await look("made");
  await page.context().clearCookies();
  await page.goto(`${baseUrl}${linkPath}`);
  await look("customer");
  expect(faults).toEqual([]);
  await page.context().close();
});
