// `npm run pictures`: takes the README's pictures from a demo loaded afresh on a throw-away
// database.
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { buildApp } from "../../src/app.ts";
import { readConfig } from "../../src/config.ts";
import { openDatabase } from "../../src/db/open.ts";
import { offerDemo } from "../../src/demo/offer-demo.ts";
import { readDemoSignIn } from "../../src/demo/sign-in-file.ts";
import { readSecrets } from "../../src/secrets.ts";
import { launchBrowser } from "../support/browser.ts";

const PICTURES = new URL("../../templates/pictures/", import.meta.url).pathname;

const folder = mkdtempSync(join(tmpdir(), "holdpoint-pictures-"));
chmodSync(folder, 0o711);
const config = readConfig({ DATA_DIR: folder, LOG_LEVEL: "silent" }, folder);
const secrets = readSecrets(folder);
const database = await openDatabase(config, secrets);
await offerDemo(database, config, new Date(), () => undefined);
const app = await buildApp({ db: database.db, config, jwtSecret: secrets.jwtSecret });
const baseUrl = (await app.listen({ port: 0, host: "127.0.0.1" })).replace(
  "127.0.0.1",
  "localhost",
);
const browser = await launchBrowser();
try {
  const account = readDemoSignIn(folder);
  if (!account) throw new Error("the demo was not loaded");
  const context = await browser.newContext({
    viewport: { width: 1180, height: 760 },
    deviceScaleFactor: 1,
  });
  const page = await context.newPage();
  await page.goto(`${baseUrl}/sign-in`);
  await page.getByLabel("E-mail address").fill(account.ownerEmail);
  await page.getByLabel("Password").fill(account.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL(`${baseUrl}/`);
  await page.goto(`${baseUrl}/today`);
  await page.screenshot({ path: `${PICTURES}today.png` });
  await page.goto(`${baseUrl}/diary`);
  await page.screenshot({ path: `${PICTURES}diary.png` });
  await page.goto(`${baseUrl}/firmware`);
  await page.screenshot({ path: `${PICTURES}firmware.png` });
  await page.goto(`${baseUrl}/jobs`);
  await page
    .getByRole("link", { name: process.argv[2] ?? /./ })
    .first()
    .waitFor();
  const links: string[] = [];
  for (let more = true; more; ) {
    const hrefs = await page
      .locator("td a")
      .evaluateAll((all) => all.map((a) => (a as unknown as { href: string }).href));
    links.push(...hrefs);
    const next = page.locator("a[rel=next]");
    more = (await next.count()) > 0;
    if (more) await next.click();
  }
  let most = { href: "", count: 0 };
  for (const href of links) {
    await page.goto(href);
    const codes = await page.locator("#concede > li").count();
    if (codes === 3) most = { href, count: codes };
  }
  if (most.count !== 3) throw new Error("no job of the demo has three blockers");
  await page.goto(most.href);
  await page.screenshot({ path: `${PICTURES}job-blocked.png` });
  await pictureOfSurvey(page);
  await pictureOfTablet(account.password);
} finally {
  await browser.close();
  await app.close();
  await database.close();
  rmSync(folder, { recursive: true, force: true });
}

/** The survey of the demo that breaks a rule. */
async function pictureOfSurvey(page: Page): Promise<void> {
  const read = async (path: string) => (await page.request.get(`${baseUrl}/api/v1${path}`)).json();
  const { items } = await read("/sites?limit=100");
  for (const { id } of items) {
    const { summary } = await read(`/sites/${id}/siting`);
    if (!summary?.counts.breaks) continue;
    await page.goto(`${baseUrl}/sites/${id}/survey`);
    await page.setViewportSize({ width: 1180, height: 1320 });
    await page.screenshot({ path: `${PICTURES}survey.png` });
    return;
  }
  throw new Error("no survey of the demo breaks a rule");
}

/** A visit as an installer has it before them, with a reading typed that is not met. */
async function pictureOfTablet(password: string): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 820, height: 1120 } });
  const page = await context.newPage();
  await page.goto(`${baseUrl}/tablet/`);
  await page.getByLabel("E-mail address").fill("dev@copperbeck.example");
  await page.getByLabel("Password").fill(password);
  await page.keyboard.press("Enter");
  await page.getByRole("link", { name: "Yearly look-over" }).click();
  await page.getByRole("link", { name: "All items" }).click();
  await page
    .locator("main")
    .getByRole("link", { name: "Warmest place of the pack" })
    .first()
    .click();
  for (const key of ["5", "3"]) await page.getByRole("button", { name: key, exact: true }).click();
  await page.screenshot({ path: `${PICTURES}tablet.png` });
}
