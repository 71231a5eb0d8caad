import { mkdirSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { startWork, type Work } from "../support/work-rows.ts";

const OUTPUT = new URL("../output/", import.meta.url).pathname;
let work: Work;
let browser: Browser;
let baseUrl: string;
let absencePath: string;
let hoursPath: string;
let recurringPath: string;
let kindPath: string;
let qualificationPath: string;
beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  work = await startWork(new Date());
  const personId = await work.rows.person("Bo Ash");
  const office = work.service.as(work.service.firm.people.office);
  const away = { personId, from: "2027-03-01", to: "2027-03-05", reason: "sickness" };
  const entered = await office.post("/api/v1/absences").send(away);
  hoursPath = `/working-hours/people/${personId}`;
  absencePath = `/absences/${entered.body.id}`;
  const kind = { name: "DC work" };
  const kindId = (await office.post("/api/v1/qualification-kinds").send(kind)).body.id as string;
  kindPath = `/qualifications/kinds/${kindId}`;
  const held = { personId, kindId, validFrom: "2026-01-01", validTo: "2099-12-31" };
  const recorded = await office.post("/api/v1/qualifications").send(held);
  qualificationPath = `/qualifications/${recorded.body.id}`;
  const { siteId, planId } = work;
  const turns = { title: "Yearly look-over", everyMonths: 12, firstDueOn: "2027-02-01" };
  const comes = await office
    .post("/api/v1/recurring-inspections")
    .send({ siteId, planId, ...turns });
  recurringPath = `/recurring-inspections/${comes.body.id}`;
  const owner = work.service.as(work.service.firm.people.owner);
  await owner.post("/api/v1/qualification-requirements").send({ jobKind: "install", kindId });
  const address = await work.service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await work.service.stop();
});

test("an absence is entered, removed and put back with the keyboard alone", async () => {
  const page = await signedInPage(browser, baseUrl, "/absences");
  page.setDefaultTimeout(9000);
  await page.getByLabel("Person").selectOption({ label: "Bo Ash" });
  await page.getByLabel("First day").fill("2027-04-01");
  await page.getByLabel("Last day").fill("2027-04-02");
  await page.getByLabel("Note").fill("Moving house");
  await page.getByLabel("Note").press("Enter");
  await page.getByRole("heading", { name: "Away in April 2027" }).waitFor();
  await page.getByRole("button", { name: /^Remove Bo Ash/ }).press("Enter");
  await page.getByRole("status").getByRole("button", { name: "Undo" }).press("Enter");
  await page.getByRole("cell", { name: "Moving house" }).waitFor();
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
    "absences-empty": "/absences?month=2027-07",
    absences: "/absences?month=2027-03",
    absence: absencePath,
    recurring: "/recurring-inspections",
    "recurring-none": "/recurring-inspections?ended=true",
    "recurring-one": recurringPath,
    "recurring-site": "/recurring-inspections/new",
    "recurring-new": `/recurring-inspections/new?siteId=${work.siteId}`,
    qualifications: "/qualifications",
    "qualifications-none": "/qualifications?within=30",
    qualification: qualificationPath,
    "qualification-rules": "/qualifications/rules",
    "qualification-kind": kindPath,
    "working-hours": "/working-hours",
    "firm-hours": "/working-hours/firm",
    "person-hours": hoursPath,
  };
  for (const [name, path] of Object.entries(paths)) {
    await page.goto(`${baseUrl}${path}`);
    expect(await accessibilityFaults(page), name).toEqual([]);
    const wide = await page.evaluate("document.documentElement.scrollWidth");
    expect(wide, name).toBeLessThanOrEqual(width);
    await page.screenshot({
      path: `${OUTPUT}hours-${name}-${colorScheme}-${width}.png`,
      fullPage: true,
    });
  }
  expect(faults).toEqual([]);
  await page.context().close();
});
