import { parse } from "csv-parse/sync";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { addProvenJob } from "../support/evidence-bag.ts";

const JOBS = 4;
let service: TestService;
let browser: Browser;
let baseUrl: string;
let drawn: string;
beforeAll(async () => {
  service = await startService();
  for (let made = 0; made < JOBS; made++) await addProvenJob(service);
  baseUrl = await service.app.listen({ port: 0 });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});

const page = (path: string) =>
  service.as(service.firm.people.auditor).get(path).set("accept", "text/html");
const EVER = { from: "2000-01-01", to: "2099-12-31", limit: "6.5" };
const asked = (fields: object = {}) => `/audits?${new URLSearchParams({ ...EVER, ...fields })}`;
const jobsOf = (html: string) =>
  [...html.matchAll(/<td><a href="\/jobs\/([^"]+)"/g)].map(([, id]) => id);

describe("an audit sample", () => {
  test("gets a seed where none was given, and is the same for the same seed", async () => {
    const first = await page(asked());
    expect(first.status).toBe(303);
    drawn = first.headers.location as string;
    expect(drawn).toMatch(/seed=[0-9a-f]{12}$/);
    const [one, two] = [await page(drawn), await page(drawn)];
    // A lot of 4 at an AQL of 6.5 %: code letter A, 2 of them, 0/1 (ISO 2859-1, from memory).
    expect(one.text).toContain("Lot of 4, code letter A: look at 2; accept with 0 or fewer");
    expect(jobsOf(one.text)).toHaveLength(2);
    expect(jobsOf(two.text)).toEqual(jobsOf(one.text));
  });

  test("is rejected once a finding is opened on a drawn job with one click", async () => {
    expect((await page(drawn)).text).toContain("accepted by the findings so far");
    const browsed = await signedInPage(browser, baseUrl, drawn);
    await browsed.getByRole("button", { name: "Open a nonconformance" }).first().click();
    await browsed.waitForURL(/\/nonconformances\/[0-9a-f-]{36}$/);
    const heading = browsed.getByRole("heading", { level: 1 });
    expect(await heading.textContent()).toMatch(/^N-\d{4}-\d{4} Audit finding on J-/);
    await browsed.context().close();
    const { text } = await page(drawn);
    expect(text).toContain("✕ rejected");
    expect(text).toContain("See the finding");
  });

  test("says what is wrong with what was typed, and when there is nothing to draw", async () => {
    expect((await page(asked({ to: "1999-01-01", seed: "abcd" }))).status).toBe(422);
    expect((await page(asked({ seed: "a b" }))).status).toBe(422);
    expect((await page(asked({ limit: "3" }))).status).toBe(422);
    const none = await page(asked({ to: "2000-01-02", seed: "abcd" }));
    expect(none.text).toContain("No job that stands closed was closed in that time.");
    const other = await service.addFirm("larch");
    const theirs = await service.as(other.people.auditor).get(drawn).set("accept", "text/html");
    expect(theirs.text).toContain("No job that stands closed was closed in that time.");
  });

  test("leaves as CSV, the same jobs in the same order", async () => {
    const auditor = service.as(service.firm.people.auditor);
    const shown = await auditor.get(drawn).set("accept", "text/html");
    const query = drawn.slice(drawn.indexOf("?"));
    const { status, text } = await auditor.get(`/api/v1/exports/audit-sample.csv${query}`);
    expect(status, text).toBe(200);
    const rows: Record<string, string>[] = parse(text, { columns: true, bom: true });
    const listed = [...shown.text.matchAll(/<td><a href="\/jobs\/[^"]+">([^<]+)</g)];
    expect(rows.map(({ job }) => job)).toEqual(listed.map(([, reference]) => reference));
    expect(rows.length).toBeGreaterThan(1);
    expect(rows.map(({ draw }) => draw)).toEqual(rows.map((_row, index) => String(index + 1)));
    const backwards = query.replace(/from=\d+/, "from=2999");
    expect((await auditor.get(`/api/v1/exports/audit-sample.csv${backwards}`)).status).toBe(422);
  });

  test.each([
    ["light", 1024],
    ["dark", 320],
  ] as const)("has a page that is accessible and fits, %s at %d px", async (colorScheme, width) => {
    const browsed = await signedInPage(browser, baseUrl, "/audits", {
      ...{ colorScheme, viewport: { width, height: 800 } },
    });
    const faults = consoleFaults(browsed);
    for (const path of ["/audits", drawn]) {
      await browsed.goto(`${baseUrl}${path}`);
      expect(await accessibilityFaults(browsed), path).toEqual([]);
      const wide = await browsed.evaluate("document.documentElement.scrollWidth");
      expect(wide, path).toBeLessThanOrEqual(width);
    }
    expect(faults).toEqual([]);
    await browsed.context().close();
  });
});
