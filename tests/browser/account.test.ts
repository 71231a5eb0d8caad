// People by themselves, in a browser: from the invitation over the second step to signing in with
// its code (TOTP by the package otpauth, RFC 6238), and the language in which pages speak to them.
import { TOTP } from "otpauth";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "../support/app.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { addPracticeJob } from "../support/practice-job.ts";

const OWN_PASSWORD = "seven herons over the weir";
let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;
beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage());
});
afterAll(() => close());

const isAccessible = async (page: Page) => expect(await accessibilityFaults(page)).toEqual([]);
const languageOf = (page: Page) => page.locator("html").getAttribute("lang");

async function invite(email: string): Promise<string> {
  const page = await signedInPage(browser, baseUrl, "/people", { role: "owner" });
  const form = page.locator('form[action="/people"]').last();
  await form.getByLabel("Name").fill("Wren Ash");
  await form.getByLabel("E-mail address").fill(email);
  await form.getByLabel("installer").check();
  await page.getByRole("button", { name: "Send the invitation" }).click();
  await page.getByText("Wren Ash").first().waitFor();
  await page.context().close();
  const mail = await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.mail.findFirstOrThrow({ where: { firmId: tx.firmId, recipient: email } }),
  );
  return /\/invitation\/\S+/.exec(mail.textBody)?.[0] ?? "";
}

/** A code that no try before had: each is good once. */
async function freshCode(secret: string, after: string): Promise<string> {
  const totp = new TOTP({ secret });
  const next = totp.generate({ timestamp: Date.now() + 30_000 });
  return next === after ? totp.generate() : next;
}

test("an invitation leads to an account, a second step and signing in with its code", async () => {
  const email = "wren@alder.example";
  const page = await (await browser.newContext()).newPage();
  page.setDefaultTimeout(8_000);
  const faults = consoleFaults(page);
  await page.goto(baseUrl + (await invite(email)));
  await page.getByText("Wren Ash").waitFor();
  await isAccessible(page);
  await page.locator('[name="password"]').fill(OWN_PASSWORD);
  await page.locator('[name="language"]').selectOption("es");
  await page.locator("main form button.main").click();
  await page.waitForURL((url) => !url.pathname.startsWith("/invitation"));
  await page.goto(`${baseUrl}/account/two-step`);
  expect(await languageOf(page)).toBe("es");
  await page.locator('[name="presentPassword"]').fill(OWN_PASSWORD);
  await page.locator("main form button.main").click();
  await page.locator(".qr svg").waitFor();
  await isAccessible(page);
  const secret = (await page.locator("main code").textContent()) ?? "";
  const first = new TOTP({ secret }).generate();
  await page.locator('[name="code"]').fill(first);
  await page.locator("main form button.main").click();
  await page.getByText("El segundo paso está configurado.").waitFor();
  expect(await page.locator("main li code").count()).toBe(10);
  await page.context().clearCookies();
  await page.goto(`${baseUrl}/sign-in`);
  await page.locator('[name="email"]').fill(email);
  await page.locator('[name="password"]').fill(OWN_PASSWORD);
  await page.locator("main form button.main").click();
  await page.locator('[name="code"]').fill("000000");
  await page.locator("main form button.main").click();
  await page.locator("[role=alert]").waitFor();
  await isAccessible(page);
  await page.locator('[name="code"]').fill(await freshCode(secret, first));
  await page.locator("main form button.main").click();
  await page.waitForURL(`${baseUrl}/`);
  expect(await languageOf(page)).toBe("es");
  expect(faults.filter((fault) => !/401/.test(fault))).toEqual([]);
  await page.context().close();
}, 60_000);

test("a person's language is that of every sentence: blockers, limits and refusals", async () => {
  const { jobId } = await addPracticeJob(service);
  const page = await signedInPage(browser, baseUrl, "/account");
  await page.locator("#language").selectOption("es");
  await page.locator('form[action="/account/language"] button').click();
  await page.getByRole("heading", { name: "Su cuenta" }).waitFor();
  await page.goto(`${baseUrl}/jobs/${jobId}`);
  const read = (await page.locator("main").textContent()) ?? "";
  expect(read).toContain("Todavía no hay respuesta; se necesita exactamente 0 V.");
  expect(read).toContain("Para resolverlo:");
  expect(read).not.toMatch(/There is no answer|; needed |To clear it|hold point/);
  await isAccessible(page);
  await page.goto(`${baseUrl}/jobs/${jobId}0`);
  expect(await page.locator("main").textContent()).not.toMatch(/There is no|The input/);
  await page.context().close();
});
