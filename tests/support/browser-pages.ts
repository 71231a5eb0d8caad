// A signed-in page of the real server, and what every page is held to.
import { readFileSync } from "node:fs";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { PASSWORD } from "./app.ts";

export async function signedInPage(
  browser: Browser,
  baseUrl: string,
  path: string,
  { role = "office", ...options }: BrowserContextOptions & { role?: string } = {},
): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1100, height: 800 }, ...options });
  const page = await context.newPage();
  await page.goto(`${baseUrl}${path}`);
  await page.getByLabel("E-mail address").fill(`${role}@alder.example`);
  await page.getByLabel("Password").fill(PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL(`${baseUrl}${path}`);
  return page;
}

const AXE = readFileSync(
  new URL("../../node_modules/axe-core/axe.min.js", import.meta.url),
  "utf8",
);
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What axe-core finds against WCAG 2.2 AA, one line each; nothing where it finds nothing. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return faultsFound(page, RULES);
}

/** Of a page that was looked through before: what its other colours alone can change. */
export const contrastFaults = (page: Page): Promise<string[]> => faultsFound(page, ["cat.color"]);

async function faultsFound(page: Page, tags: readonly string[]): Promise<string[]> {
  const run = `axe.run(document, ${JSON.stringify({ runOnly: tags, resultTypes: ["violations"] })})
    .then(({ violations }) => violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => id + " " + target + " " + failureSummary)))`;
  return page.evaluate(run) as Promise<string[]>;
}

/** Errors of the console from now on, refusals of the content security policy among them. */
export function consoleFaults(page: Page): string[] {
  const faults: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(String(error)));
  return faults;
}
