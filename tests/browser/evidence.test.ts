// Evidence taken away on the page: asked for, watched, fetched, and found whole.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { addProvenJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import { fetchExport } from "../support/evidence-exports.ts";

let stage: EvidenceStage;
let browser: Browser;
let baseUrl: string;

beforeAll(async () => {
  stage = await startEvidence(() => new Date());
  await addProvenJob(stage.service);
  const address = await stage.service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await stage.stop();
});

test("a bag of the fleet is asked for, watched until it is ready, fetched and whole", async () => {
  const page = await signedInPage(browser, baseUrl, "/evidence", { role: "auditor" });
  const faults = consoleFaults(page);
  expect(await page.getByText("No evidence has been taken away yet.").isVisible()).toBe(true);
  await page.getByLabel("Evidence of").selectOption("fleet");
  await page.getByRole("button", { name: "Make the bag" }).click();
  const link = page.getByRole("link", { name: "EV-FLEET.zip" });
  await link.waitFor();
  const id = /evidence-exports\/([0-9a-f-]+)\//.exec((await link.getAttribute("href")) ?? "")?.[1];
  const path = join(stage.folder, "fetched.zip");
  writeFileSync(path, (await fetchExport(stage.service, id ?? "")).bytes);
  expect((await verifyBag(path)).faults).toEqual([]);
  expect(faults).toEqual([]);
  await page.context().close();
});

test("a reference that is not there is told beside its field, and stays typed", async () => {
  const page = await signedInPage(browser, baseUrl, "/evidence", { role: "auditor" });
  await page.getByLabel("Reference of the site").fill("S-9");
  await page.getByRole("button", { name: "Make the bag" }).click();
  await page.getByText("There is no site with this reference.").waitFor();
  expect(await page.getByLabel("Reference of the site").inputValue()).toBe("S-9");
  await page.context().close();
});

test.each([
  ["light", 1100],
  ["dark", 320],
] as const)("the page is accessible and fits: %s, %d px", async (colorScheme, width) => {
  const viewport = { width, height: 800 };
  const options = { role: "auditor", colorScheme, viewport };
  const page = await signedInPage(browser, baseUrl, "/evidence", options);
  expect(await accessibilityFaults(page)).toEqual([]);
  const over = await page.evaluate(
    "document.documentElement.scrollWidth - document.documentElement.clientWidth",
  );
  expect(over).toBe(0);
  await page.context().close();
});
