// The list of warranties: states with reasons in words, accessible in both schemes and narrow.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { addModel, addSite, install, type Made, receive } from "../support/stock.ts";

const NOW = new Date("2026-11-25T09:00:00Z");
let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;
let units: { late: Made; due: Made };

beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage({ now: () => NOW }));
  const model = await addModel(service);
  await service
    .as(service.firm.people.manager)
    .post(`/api/v1/product-models/${model.id}/warranty-terms`)
    .send({ appliesFrom: "2020-01-01", years: 10, registerWithinDays: 30, evidenceNeeded: false });
  const installed = async (at: string) => {
    const unit = await receive(service, model.id);
    await install(service, unit, await addSite(service), { at });
    return unit;
  };
  units = {
    late: await installed("2026-10-25T10:00:00Z"),
    due: await installed("2026-10-27T10:00:00Z"),
  };
});
afterAll(() => close());

test("says how each unit's warranty stands, and why", async () => {
  const page = await signedInPage(browser, baseUrl, "/warranty");
  const row = ({ serial }: Made) => page.locator("tbody tr", { hasText: serial }).textContent();
  expect(await row(units.late)).toMatch(/lapsed.*not registered in time/s);
  expect(await row(units.due)).toMatch(/at risk.*still to be registered/s);
  await page.context().close();
});

test("a count leads to its units, and a unit's page to its registration and its undo", async () => {
  const page = await signedInPage(browser, baseUrl, "/warranty");
  await page.getByRole("link", { name: /^at risk/ }).click();
  expect(await page.locator("tbody tr").count()).toBe(1);
  await page.getByRole("link", { name: units.due.serial }).click();
  await page.getByLabel("Maker's reference").fill("FS-REG-7");
  await page.getByRole("button", { name: "Note the registration" }).click();
  expect(await page.locator("main").textContent()).toMatch(/in term.*FS-REG-7/s);
  await page.getByRole("button", { name: "Undo" }).click();
  expect(await page.locator("main").textContent()).toMatch(/at risk.*register by 26 Nov 2026/s);
  await page.context().close();
});

test.each(["light", "dark"] as const)("is accessible in %s and fits 320 px", async (scheme) => {
  const page = await signedInPage(browser, baseUrl, "/warranty");
  const faults = consoleFaults(page);
  await page.emulateMedia({ colorScheme: scheme });
  for (const width of [1280, 320]) {
    await page.setViewportSize({ width, height: 800 });
    await page.reload();
    expect(await accessibilityFaults(page), `${width}`).toEqual([]);
    const overflow = await page.evaluate<number>(
      "document.documentElement.scrollWidth - document.documentElement.clientWidth",
    );
    expect(overflow, `${width}`).toBeLessThanOrEqual(0);
  }
  expect(faults).toEqual([]);
  await page.context().close();
});
