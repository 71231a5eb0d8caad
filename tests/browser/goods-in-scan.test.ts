// Serials off photos at goods-in, in a browser that reads codes and in one that does not. The
// browser of the tests has no BarcodeDetector (Shape Detection API), so where one is wanted its
// decoder is put in its place here; what is tried is all that the page makes of its answers.
import type { Browser } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { startWork, type Work } from "../support/work-rows.ts";

let work: Work;
let browser: Browser;
let baseUrl: string;
beforeAll(async () => {
  work = await startWork(new Date());
  const address = await work.service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await work.service.stop();
});

const pictureOf = (width: number) =>
  sharp({ create: { width, height: 40, channels: 3, background: "#fff" } })
    .png()
    .toBuffer();
/** Answers by the width of the picture, so that what is read depends on what was taken. */
const DECODER = `globalThis.BarcodeDetector = class {
  async detect({ width }) {
    if (width === 13) throw new Error("unreadable");
    const texts = { 10: ["HN00000021"], 20: ["HN00000022", "9506000134352", "HN00000022"] };
    return (texts[width] ?? []).map((rawValue) => ({ rawValue }));
  }
};`;

test("without a reader of codes the serial is typed", async () => {
  const page = await signedInPage(browser, baseUrl, "/goods-in");
  expect(await page.getByText("Read it off a photo").isVisible()).toBe(false);
  expect(await page.getByLabel("Serial number").isEditable()).toBe(true);
  await page.context().close();
});

test("one code fills the field, of several one is chosen, and none is told", async () => {
  const page = await signedInPage(browser, baseUrl, "/", { viewport: { width: 320, height: 700 } });
  const faults = consoleFaults(page);
  await page.addInitScript(DECODER);
  await page.goto(`${baseUrl}/goods-in`);
  const field = page.getByLabel("Serial number");
  const scan = async (width: number): Promise<void> => {
    const buffer = await pictureOf(width);
    const file = { name: "label.png", mimeType: "image/png", buffer };
    await page.getByLabel("Read it off a photo").setInputFiles(file);
  };
  await scan(30);
  await page.getByText("No code was found in the picture.").waitFor();
  await scan(13);
  await page.getByText("The picture could not be read.").waitFor();
  expect(await field.inputValue()).toBe("");
  await scan(10);
  await page.getByText("Read HN00000021.").waitFor();
  expect(await field.inputValue()).toBe("HN00000021");
  await scan(20);
  await page.getByText("Several codes were found.").waitFor();
  expect(await page.locator(".scan li").allTextContents()).toEqual(["HN00000022", "9506000134352"]);
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(320);
  await page.getByRole("button", { name: "HN00000022" }).press("Enter");
  expect(await field.inputValue()).toBe("HN00000022");
  expect(await page.locator(".scan li").count()).toBe(0);
  expect(faults).toEqual([]);
  await page.context().close();
});
