import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { ACCESS } from "../../src/access.ts";
import { describedApi } from "../support/api-operations.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let path: string;
beforeAll(async () => {
  service = await startService();
  path = `/people/${service.firm.people.auditor.id}/audit-access`;
  baseUrl = await service.app.listen({ port: 0 });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});
const as = (role: "owner" | "manager" | "office") => service.as(service.firm.people[role]);

test("a manager gives an access and withdraws it on its page, at 320 px too", async () => {
  const options = { role: "manager", viewport: { width: 320, height: 800 } };
  const page = await signedInPage(browser, baseUrl, path, options);
  const faults = consoleFaults(page);
  await page.getByRole("region", { name: "Access now" }).getByText("The whole firm").waitFor();
  await page.getByLabel("Jobs closed or visited from").fill("2026-01-01");
  await page.getByLabel("Jobs closed or visited to").fill("2026-06-30");
  await page.getByRole("button", { name: "Give this access" }).click();
  await page.getByText("jobs closed or visited from 1 Jan 2026").waitFor();
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(320);
  await page.getByRole("button", { name: "Withdraw it now" }).click();
  await page
    .getByRole("region", { name: "Access now" })
    .getByText("Withdrawn by manager person")
    .waitFor();
  for (const other of ["/audits", "/audit-looks"]) {
    await page.goto(`${baseUrl}${other}`);
    expect(await accessibilityFaults(page), other).toEqual([]);
    const width = await page.evaluate("document.documentElement.scrollWidth");
    expect(width, other).toBeLessThanOrEqual(320);
  }
  expect(faults).toEqual([]);
  await page.context().close();
});

test("says at the field what is wrong and keeps what was typed", async () => {
  const send = (fields: Record<string, string>) =>
    as("owner").post(path).set("accept", "text/html").type("form").send(fields);
  const unknown = await send({ outside: "true", until: "2030-01-01", sites: "S-1999-0001" });
  expect(unknown.status).toBe(422);
  expect(unknown.text).toContain("There is no site S-1999-0001.");
  expect(unknown.text).toContain(">S-1999-0001</textarea>");
  const noEnd = await send({ outside: "true" });
  expect(noEnd.text).toContain("An auditor from outside needs a last day.");
  expect((await as("office").get(path)).status).toBe(403);
});

test("an invited auditor has thirty days from the start, and the page to say what", async () => {
  const fields = { name: "Ines Vale", email: "ines@audit.example", roles: "auditor" };
  const reply = await as("owner").post("/people").type("form").send(fields);
  expect(reply.headers.location).toMatch(/^\/people\/[0-9a-f-]{36}\/audit-access$/);
  const { items } = (await as("manager").get(`/api/v1${reply.headers.location}`)).body;
  const days = (Date.parse(items[0].until) - Date.parse(items[0].from)) / 86_400_000;
  expect([items.length, items[0].outside, days]).toEqual([1, true, 30]);
});

test("the days of an auditor are asked for where that role is ticked alone", async () => {
  const page = await signedInPage(browser, baseUrl, "/people", { role: "owner" });
  const faults = consoleFaults(page);
  const form = page.getByRole("region", { name: "Invite a person" });
  const day = form.getByLabel("Last day that the auditor sees the firm");
  expect(await day.isVisible()).toBe(false);
  await form.getByLabel("auditor", { exact: true }).check();
  await form.getByLabel("office").check();
  expect(await day.isVisible()).toBe(false);
  await form.getByLabel("office").uncheck();
  expect(await day.isVisible()).toBe(true);
  expect(await accessibilityFaults(page)).toEqual([]);
  const usual = await day.inputValue();
  const wanted = new Date(Date.parse(usual) - 10 * 86_400_000).toISOString().slice(0, 10);
  await day.fill(wanted);
  await form.getByLabel("Name").fill("Io Vale");
  await form.getByLabel("E-mail address").fill("io@audit.example");
  await form.getByRole("button").click();
  await page.waitForURL("**/audit-access");
  const id = page.url().split("/").at(-2);
  const { items } = (await as("owner").get(`/api/v1/people/${id}/audit-access`)).body;
  expect(items.map(({ until }: { until: string }) => until)).toEqual([wanted]);
  expect(faults).toEqual([]);
  await page.context().close();
});

test("a day that cannot be is said at its field", async () => {
  const fields = { name: "Una Vale", email: "una@audit.example", auditUntil: "2020-01-01" };
  const send = (roles: string[]) =>
    as("owner")
      .post("/people")
      .type("form")
      .send({ ...fields, roles });
  const refused = await send(["auditor"]);
  expect(refused.status).toBe(422);
  expect(refused.text).toContain("is before the first");
  expect((await send(["auditor", "office"])).headers.location).toBe("/people");
});

/** What an auditor may send: a finding, a sample and its looks, evidence asked for. */
const WRITES = ["addAuditLook", "addEvidenceExport", "keepAuditSample", "openNonconformance"];
const OWN = [
  ...["beginTwoStep", "confirmTwoStep", "endTwoStep", "setOwnPassword", "signOut"],
  ...["endCalendarAddress", "makeCalendarAddress", "putMessagesSeen", "signOutEverywhere"],
];
/** They answer by what is sent, and keep nothing. */
const PURE = ["calculate", "checkPlan", "countBusinessDays", "planTightening"];
const TRIALS = ["tryBankSettings", "trySiting"];

test("an auditor writes findings, samples and what is their own, and nothing else", () => {
  const { operations } = describedApi(service.app);
  const may = operations
    .filter(({ method }) => !["get", "head"].includes(method))
    .filter(({ id }) => ACCESS[id] === "everyone" || ACCESS[id]?.includes("auditor"))
    .filter(({ id }) => ACCESS[id] !== "anyone");
  expect(may.map(({ id }) => id).sort()).toEqual([...WRITES, ...OWN, ...PURE, ...TRIALS].sort());
});
