// Accessibility is held against WCAG 2.2 AA by axe-core; 320 px is its reflow width (1.4.10).
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { addBank, SWITCH_MAP } from "../support/bank-rows.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { addSite } from "../support/stock.ts";
import { putSurvey, savedSurvey, surveyBody } from "../support/survey-rows.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;

beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage());
});
afterAll(() => close());

const open = (path: string, options: Parameters<typeof signedInPage>[3] = {}) =>
  signedInPage(browser, baseUrl, path, options);

async function surveyedSite(gapMm: number, fields: object = {}) {
  const site = await addSite(service);
  await savedSurvey(service, site.id, surveyBody(gapMm, fields));
  return site;
}

describe("the page of a site's survey", () => {
  test("shows drawing, standing, margin, rule, edition and source of each finding", async () => {
    const site = await surveyedSite(820);
    const page = await open(`/sites/${site.id}/survey`);
    expect(await page.getByText("✕ 1 check breaks a rule").isVisible()).toBe(true);
    const drawing = page.getByRole("img", { name: "Siting drawing: South wall" });
    expect(await drawing.getByText("breaks: 820 mm").isVisible()).toBe(true);
    const row = page.getByRole("row").filter({ hasText: "✕ breaks" });
    const words = await row.textContent();
    for (const part of [
      "Outdoors: 1 m from openings and escape routes",
      "Kitchen window is 820 mm from Pack 1; 1000 mm is needed: 180 mm short.",
      "−180 mm",
      "PAS 63100 6.5",
      "edition 2024",
      "seen in a secondary page",
    ]) {
      expect(words).toContain(part);
    }
    expect(await page.getByText("Guidance, not a certificate.").first().isVisible()).toBe(true);
    await page.context().close();
  });

  test("is judged by other rules that are chosen with the keyboard alone", async () => {
    const site = await surveyedSite(1000);
    const page = await open(`/sites/${site.id}/survey`);
    await page.getByLabel("Rules", { exact: true }).focus();
    await page.keyboard.type("Australia");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.waitForURL(/rulePack=au-nz-2026/);
    await page.getByRole("heading", { name: /Australia and New Zealand/ }).waitFor();
    const asked = page.getByText("The survey is for region uk; Australia and New Zealand is for");
    expect(await asked.first().isVisible()).toBe(true);
    await page.context().close();
  });

  test("leads through the survey's versions", async () => {
    const site = await surveyedSite(820);
    await putSurvey(service, site.id, surveyBody(1000), 1);
    const page = await open(`/sites/${site.id}/survey`);
    expect(await page.getByText("✓ nothing broken that was checked").isVisible()).toBe(true);
    await page.getByRole("link", { name: "Version before" }).click();
    await page.getByText("Version 1 of 2").waitFor();
    expect(await page.getByText("✕ 1 check breaks a rule").isVisible()).toBe(true);
    await page.getByRole("link", { name: "Version after" }).click();
    await page.getByText("Version 2 of 2").waitFor();
    await page.context().close();
  });

  test("says what is missing: a survey, or rules for the region", async () => {
    const bare = await addSite(service);
    const page = await open(`/sites/${bare.id}/survey`);
    expect(await page.getByText("This site has no survey yet.").isVisible()).toBe(true);
    const site = await addSite(service, { region: "normandie", country: "FR" });
    await savedSurvey(service, site.id, surveyBody());
    await page.goto(`${baseUrl}/sites/${site.id}/survey`);
    expect(await page.getByText("No rule pack is for region normandie.").isVisible()).toBe(true);
    expect(await page.getByRole("img", { name: /Siting drawing/ }).isVisible()).toBe(true);
    await page.context().close();
  });

  test("shows names that look like markup as text, and runs none of it", async () => {
    const title = `<img src=x onerror="document.title='hit'">`;
    const site = await surveyedSite(820, { title });
    const page = await open(`/sites/${site.id}/survey`);
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe(title);
    expect(await page.locator("main img").count()).toBe(0);
    expect(await page.title()).toContain("Siting S-");
    await page.context().close();
  });

  test("on paper keeps drawing, findings and caution, and leaves the controls out", async () => {
    const site = await surveyedSite(820);
    const page = await open(`/sites/${site.id}/survey`, { colorScheme: "dark" });
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 760, height: 1000 });
    expect(await page.locator("button, select").filter({ visible: true }).count()).toBe(0);
    for (const text of ["breaks: 820 mm", "−180 mm", "Guidance, not a certificate."]) {
      expect(await page.getByText(text).first().isVisible(), text).toBe(true);
    }
    const width = await page.evaluate("document.documentElement.scrollWidth");
    expect(width).toBeLessThanOrEqual(760);
    await page.context().close();
  });
});

describe("the page of a bank's settings", () => {
  test("shows each pack's place, serial, positions and address beside the drawing", async () => {
    const bank = await addBank(service, SWITCH_MAP, [1, 2, 3]);
    const page = await open(`/banks/${bank.id}`, { role: "installer" });
    const cells = await page.getByRole("row").nth(3).getByRole("cell").allTextContents();
    expect(cells).toEqual(["3", bank.units[2]!.serial, "2", "on", "2"]);
    expect(await page.getByRole("img", { name: "Switch settings: CAIRN" }).isVisible()).toBe(true);
    expect(await page.getByText("prove dead").first().isVisible()).toBe(true);
    await page.getByLabel("Protocol").selectOption("can-c");
    await page.getByRole("button", { name: "Show these" }).click();
    await page.getByRole("heading", { name: /CAN-C/ }).waitFor();
    const other = await page.getByRole("row").nth(3).getByRole("cell").allTextContents();
    expect(other.at(-1)).toBe("4");
    await page.context().close();
  });

  test("says why there is nothing to set, and what to do about it", async () => {
    const bank = await addBank(service, null, [1]);
    const page = await open(`/banks/${bank.id}`);
    expect(await page.getByText("has no switch map").isVisible()).toBe(true);
    const unset = await addBank(service, SWITCH_MAP, [1], { protocol: null });
    await page.goto(`${baseUrl}/banks/${unset.id}`);
    expect(await page.getByText("is needed: CAIRN has can-b, can-c").isVisible()).toBe(true);
    await page.getByRole("button", { name: "Show these" }).click();
    await page.getByRole("heading", { name: /CAN-B/ }).waitFor();
    await page.context().close();
  });
});

describe("both pages", () => {
  test.each(["light", "dark"] as const)(
    "have no fault by axe-core, break no policy and fit 320 px: %s",
    async (colorScheme) => {
      const site = await surveyedSite(820);
      const bare = await addSite(service);
      const bank = await addBank(service, SWITCH_MAP, [1, 2]);
      const paths = [`/sites/${site.id}/survey`, `/sites/${bare.id}/survey`, `/banks/${bank.id}`];
      const page = await open(paths[0]!, { colorScheme });
      const faults = consoleFaults(page);
      for (const path of paths) {
        await page.setViewportSize({ width: 1100, height: 800 });
        await page.goto(`${baseUrl}${path}`);
        expect(await accessibilityFaults(page), path).toEqual([]);
        await page.setViewportSize({ width: 320, height: 640 });
        const width = await page.evaluate("document.documentElement.scrollWidth");
        expect(width, path).toBeLessThanOrEqual(320);
      }
      expect(faults).toEqual([]);
      await page.context().close();
    },
  );

  test("are linked from the head of a job", async () => {
    const job = await addPracticeJob(service);
    const { siteId } = job;
    const added = await service
      .as(service.firm.people.office)
      .post("/api/v1/banks")
      .send({ siteId, name: "Cellar bank" });
    expect(added.status).toBe(201);
    const page = await open(`/jobs/${job.jobId}`);
    const survey = await page
      .getByRole("link", { name: "Survey of the site" })
      .getAttribute("href");
    expect(survey).toBe(`/sites/${siteId}/survey`);
    await page.getByRole("link", { name: "Settings of Cellar bank" }).click();
    await page.getByText("Cellar bank has no packs yet.").waitFor();
    await page.context().close();
  });
});
