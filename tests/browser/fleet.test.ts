import { mkdirSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { addFleet, postTarget } from "../support/fleet.ts";

const OUTPUT = new URL("../output/", import.meta.url).pathname;
const NOW = new Date("2026-11-25T09:00:00Z");
let service: TestService;
let browser: Browser;
let baseUrl: string;
let siteIds: string[];
let ringId: string;
let planId: string;

beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  service = await startService({ now: () => NOW });
  const fleet = await addFleet(service, "semver", ["2.3.0", "2.3.0", "2.3.0", "2.4.0"]);
  siteIds = fleet.siteIds;
  await postTarget(service, { modelId: fleet.modelId, level: "2.4.0" }, "2026-12-10");
  const manager = service.as(service.firm.people.manager);
  const plan = await manager.post("/api/v1/plans").send({ code: "UPD", starter: "firmware-visit" });
  planId = plan.body.id;
  await manager.post(`/api/v1/plans/${planId}/versions/1/publication`);
  const ring = await manager.post("/api/v1/firmware/rings").send({ name: "Trial", position: 1 });
  ringId = ring.body.id;
  await service
    .as(service.firm.people.office)
    .post("/api/v1/crews")
    .send({ name: "Round crew", personIds: [service.firm.people.installer.id] });
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});

test("a number of the fleet leads to the sites it counts", async () => {
  const page = await signedInPage(browser, baseUrl, "/fleet", { role: "manager" });
  await page.screenshot({ path: `${OUTPUT}fleet.png`, fullPage: true });
  await page.locator('main a[href^="/firmware?"]').first().click();
  await page.waitForURL(/\/firmware\?/);
  for (const id of siteIds.slice(0, 3)) {
    expect(await page.locator(`a[href="/sites/${id}"]`).count()).toBeGreaterThan(0);
  }
  expect(await page.locator(`a[href="/sites/${siteIds[3]}"]`).count()).toBe(0);
  await page.context().close();
});

test("rounds are planned on a page, accepted in one step, and stand in the diary", async () => {
  const page = await signedInPage(browser, baseUrl, "/rounds");
  await page.getByLabel("Plan of the visits").selectOption(planId);
  await page.locator("input[name=fromDay]").fill("2026-11-30");
  await page.getByLabel("Working days").fill("1");
  await page.getByRole("button", { name: "Plan the rounds" }).click();
  await page.getByRole("button", { name: "Accept and book all" }).waitFor();
  expect(await page.locator("table.list tbody tr").count()).toBe(3);
  await page.screenshot({ path: `${OUTPUT}round.png`, fullPage: true });
  await page.getByRole("button", { name: "Accept and book all" }).click();
  await page.getByText("accepted", { exact: true }).waitFor();
  const booked = await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.visit.count({ where: { firmId: tx.firmId, state: "booked" } }),
  );
  expect(booked).toBe(3);
  await page.context().close();
});

test("visiting hours are kept, and a slip is told with its day", async () => {
  const page = await signedInPage(browser, baseUrl, `/sites/${siteIds[0]}/visit-hours`);
  await page.getByLabel("Monday, hours 1, from").fill("12:00");
  await page.getByLabel("Monday, hours 1, to").fill("09:00");
  await page.getByRole("button", { name: "Save" }).click();
  expect(await page.getByRole("alert").textContent()).toContain("Monday: must be later than from");
  expect(await page.getByLabel("Monday, hours 1, from").inputValue()).toBe("12:00");
  await page.getByLabel("Monday, hours 1, to").fill("14:30");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByRole("status").getByText("Visiting hours are kept.").waitFor();
  expect(await page.getByLabel("Monday, hours 1, to").inputValue()).toBe("14:30");
  await page.context().close();
});

test("a share of the sites is counted and then put into a ring", async () => {
  const page = await signedInPage(browser, baseUrl, `/firmware/rings/${ringId}`, {
    role: "manager",
  });
  await page.getByLabel("Share of them, percent").fill("50");
  await page.getByRole("button", { name: "Count only" }).click();
  await page.getByText("2 of 4 sites would be in the ring.").waitFor();
  await page.getByRole("button", { name: "Put them in" }).click();
  await page.getByText("2 of 4 sites are in the ring.").waitFor();
  await page.context().close();
});

test.each([
  ["light", 1280],
  ["dark", 320],
] as const)("pages are accessible and fit, %s at %d px", async (colorScheme, width) => {
  const page = await signedInPage(browser, baseUrl, "/fleet", {
    ...{ role: "manager", colorScheme, viewport: { width, height: 800 } },
  });
  const faults = consoleFaults(page);
  const round = await page.request.get(`${baseUrl}/api/v1/update-rounds?limit=1`);
  const { items } = await round.json();
  const paths = [
    ...["/fleet", "/firmware", "/firmware/releases", "/rounds", `/firmware/rings/${ringId}`],
    ...[`/rounds/${items[0].id}`, `/sites/${siteIds[0]}/visit-hours`],
  ];
  for (const path of paths) {
    await page.goto(`${baseUrl}${path}`);
    expect(await accessibilityFaults(page), path).toEqual([]);
    const sizes = "[document.documentElement.scrollWidth, document.documentElement.clientWidth]";
    const [needed, given] = (await page.evaluate(sizes)) as [number, number];
    expect(needed, `${path} at ${width} px`).toBeLessThanOrEqual(given);
  }
  expect(faults).toEqual([]);
  await page.context().close();
});
