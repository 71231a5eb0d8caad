import { mkdirSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { registryDesk } from "../support/registry-desk.ts";

const OUTPUT = new URL("../output/", import.meta.url).pathname;
let service: TestService;
let desk: Awaited<ReturnType<typeof registryDesk>>;
let browser: Browser;
let baseUrl: string;
beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  service = await startService();
  desk = await registryDesk(service);
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});

test("an edit is made and undone with the keyboard alone", async () => {
  const page = await signedInPage(browser, baseUrl, `/customers/${desk.customerId}/edit`);
  const name = await page.getByLabel("Name").inputValue();
  await page.getByLabel("Name").fill("Ottoline Vexley");
  await page.getByLabel("Phone").fill("+44 20 7946 0018");
  await page.getByLabel("Phone").press("Enter");
  await page.getByRole("status").getByText("Ottoline Vexley").waitFor();
  await page.getByRole("status").getByRole("button", { name: "Undo" }).press("Enter");
  await page.getByRole("status").getByText("Put back.").waitFor();
  expect(await page.getByRole("heading", { level: 1 }).textContent()).toContain(name);
  await page.context().close();
});

test("the box on every page finds a serial number typed with a slip", async () => {
  const page = await signedInPage(browser, baseUrl, "/customers");
  const { serial } = desk.unit;
  await page.getByRole("searchbox", { name: "Find" }).fill(`${serial}7`);
  await page.keyboard.press("Enter");
  await page.getByRole("link", { name: serial }).click();
  await page.waitForURL(`${baseUrl}/units/${desk.unit.id}`);
  await page.context().close();
});

test.each([
  ["light", 1280],
  ["dark", 320],
] as const)("pages are accessible and fit, %s at %d px", async (colorScheme, width) => {
  const page = await signedInPage(browser, baseUrl, "/", {
    ...{ colorScheme, viewport: { width, height: 800 } },
  });
  const faults = consoleFaults(page);
  const paths = {
    home: "/",
    customers: "/customers",
    customer: `/customers/${desk.customerId}`,
    "customer-edit": `/customers/${desk.customerId}/edit`,
    site: `/sites/${desk.site.id}`,
    "site-new": "/sites/new",
    units: "/units",
    unit: `/units/${desk.unit.id}`,
    "instrument-new": "/instruments/new",
    search: "/search?q=lantern",
    nothing: "/sites?place=zzqq",
  };
  for (const [name, path] of Object.entries(paths)) {
    await page.goto(`${baseUrl}${path}`);
    expect(await accessibilityFaults(page), name).toEqual([]);
    const wide = await page.evaluate("document.documentElement.scrollWidth");
    expect(wide, name).toBeLessThanOrEqual(width);
    await page.screenshot({ path: `${OUTPUT}registry-${name}-${colorScheme}.png`, fullPage: true });
  }
  expect(faults).toEqual([]);
  await page.context().close();
});
