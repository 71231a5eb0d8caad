// Every page that a link leads to from the first one, with the demo scenario in it: it opens, says
// nothing wrong to the console, is accessible (axe-core, WCAG 2.2 AA) and fits its width.
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import type { App } from "../../src/web/feature.ts";
import { ROLES } from "../../src/web/roles.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, contrastFaults } from "../support/browser-pages.ts";
import { configIn, DEMO_PASSWORD, type DemoDatabase, loadedDemo } from "../support/demo.ts";

const PAGES_MOST = 200;
const GUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;
let demo: DemoDatabase;
let app: App;
let browser: Browser;
let baseUrl: string;
const emails: Record<string, string> = {};

beforeAll(async () => {
  demo = await loadedDemo(new Date());
  for (const role of ROLES) {
    const people = await demo.read((tx) =>
      tx.person.findMany({ where: { firmId: tx.firmId, active: true, roles: { has: role } } }),
    );
    const [person] = people.toSorted((left, right) => left.roles.length - right.roles.length);
    emails[role] = person?.email ?? "";
  }
  const config = configIn(demo.folder);
  app = await buildApp({ db: demo.db, config, jwtSecret: "every page of the demo".repeat(2) });
  const address = await app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  await keepSample();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await app.close();
  await demo.end();
});

/** The demo has none, and its page is found by a link as every other. */
async function keepSample(): Promise<void> {
  const send = (url: string, payload: object, authorization = "") =>
    app.inject({ method: "POST", url, payload, headers: { authorization } });
  const account = { email: emails.auditor, password: DEMO_PASSWORD };
  const { accessToken } = (await send("/api/v1/session", account)).json();
  const day = (ago: number) => new Date(Date.now() - ago * 86_400_000).toISOString().slice(0, 10);
  const drawn = { from: day(365), to: day(0), limit: 2.5, seed: "5a1e" };
  const kept = await send("/api/v1/audits", drawn, `Bearer ${accessToken}`);
  expect(kept.statusCode, kept.body).toBe(201);
}

async function signedIn(role: string, width: number): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height: 800 } });
  const page = await context.newPage();
  await page.goto(`${baseUrl}/sign-in`);
  await page.getByLabel("E-mail address").fill(emails[role] ?? "");
  await page.getByLabel("Password").fill(DEMO_PASSWORD);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL(`${baseUrl}/`);
  return page;
}

/** Follows links from the first page, each kind of page once; `look` gives the page's links. */
async function everyPage(look: (path: string) => Promise<string[]>): Promise<string[]> {
  const seen = new Map<string, string>();
  const waiting = ["/"];
  for (let path = waiting.shift(); path && seen.size < PAGES_MOST; path = waiting.shift()) {
    if (seen.has(kindOf(path))) continue;
    seen.set(kindOf(path), path);
    for (const href of await look(path)) {
      const { origin, pathname } = new URL(href, baseUrl + path);
      if (origin === baseUrl && !isElsewhere(pathname)) waiting.push(pathname);
    }
  }
  return [...seen.values()];
}

const kindOf = (path: string) =>
  path
    .replaceAll(GUID, ":id")
    .replace(/[0-9a-f]{64}/, ":sha256")
    .replace(/\/items\/[^/]+/, "/items/:key");

/** The tablet's page and the interface have tests of their own; files are no pages. */
const isElsewhere = (path: string) => /^\/(api|docs|tablet|assets)(\/|$)|\.\w{2,5}$/.test(path);

const LINKS = `[...document.querySelectorAll("a[href]:not([download])")]
  .map((a) => a.getAttribute("href"))`;
const SIZES = "[document.documentElement.scrollWidth, document.documentElement.clientWidth]";

async function faultsInBothSchemes(page: Page): Promise<string[]> {
  await page.emulateMedia({ colorScheme: "light" });
  const light = await accessibilityFaults(page);
  await page.emulateMedia({ colorScheme: "dark" });
  const dark = await contrastFaults(page);
  return [...light.map((fault) => `light: ${fault}`), ...dark.map((fault) => `dark: ${fault}`)];
}

async function takenBy(page: Page, link: string): Promise<{ status: number; type: string }> {
  const reply = await page.request.get(baseUrl + link);
  return { status: reply.status(), type: reply.headers()["content-type"] ?? "" };
}

async function widthFaults(page: Page): Promise<string[]> {
  const [needed, given] = (await page.evaluate(SIZES)) as [number, number];
  return needed > given ? [`${needed} px wide in ${given}`] : [];
}

test("every page opens, is accessible and fits at 320 px, light and dark", async () => {
  const narrow = await signedIn("owner", 320);
  const wide = await signedIn("owner", 1280);
  const consoles = [consoleFaults(narrow), consoleFaults(wide)];
  const faults: string[] = [];
  const pages = await everyPage(async (path) => {
    const reply = await narrow.goto(baseUrl + path);
    await wide.goto(baseUrl + path);
    const found = [
      ...(reply?.ok() ? [] : [`status ${reply?.status()}`]),
      ...(await faultsInBothSchemes(narrow)),
      ...(await widthFaults(narrow)),
      ...(await widthFaults(wide)),
      ...consoles.flatMap((all) => all.splice(0)),
    ];
    faults.push(...found.map((fault) => `${path} ${fault}`));
    return (await wide.evaluate(LINKS)) as string[];
  });
  expect(faults).toEqual([]);
  expect(pages.length).toBeGreaterThan(55);
  expect(pages.map(kindOf)).toEqual(expect.arrayContaining(["/audits/:id", "/api-keys"]));
}, 240_000);

test.each(["office", "manager", "installer", "auditor"])(
  "no link leads the %s to a page or an export that is refused",
  async (role) => {
    const page = await signedIn(role, 1280);
    const refused: string[] = [];
    const exported = new Set<string>();
    const pages = await everyPage(async (path) => {
      const reply = await page.request.get(baseUrl + path, { headers: { accept: "text/html" } });
      if (!reply.ok()) refused.push(`${path} ${reply.status()}`);
      const html = await reply.text();
      const links = [...html.matchAll(/<a [^>]*href="([^"]+)"/g)].map(([, href = "/"]) =>
        href.replaceAll("&amp;", "&").replaceAll("&#x3D;", "="),
      );
      for (const link of links.filter((href) => href.startsWith("/api/v1/exports/"))) {
        if (exported.has(kindOf(link))) continue;
        exported.add(kindOf(link));
        const { status, type } = await takenBy(page, link);
        if (status !== 200 || !type.startsWith("text/csv")) {
          refused.push(`${path} ${link} ${status}`);
        }
      }
      return links;
    });
    expect(refused).toEqual([]);
    expect(exported.size).toBeGreaterThan(10);
    expect(pages.length).toBeGreaterThan(15);
  },
  60_000,
);

test("the evidence of a closed job is found whole on the page for anybody", async () => {
  const page = await signedIn("auditor", 1100);
  const jobs = await (await page.request.get(`${baseUrl}/api/v1/jobs?state=closed&limit=1`)).json();
  const bag = `${baseUrl}/api/v1/jobs/${jobs.items[0].id}/evidence-bag`;
  const buffer = await (await page.request.get(bag)).body();
  await page.goto(`${baseUrl}/check`);
  await page.locator("#bag").setInputFiles({ name: "EV.zip", mimeType: "application/zip", buffer });
  await page.locator("#verdict").waitFor();
  expect(await page.locator("#verdict").textContent()).toBe("✓ The bag is whole.");
  await page.context().close();
});
