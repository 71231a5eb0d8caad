// The page's worker in a real browser: the page opens without the service, what is said to the
// service goes past the worker, and a newer version waits until the page says so.
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { type BuildOptions, build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchBrowser } from "../support/browser.ts";

type Version = "one" | "two";
/** "portal" answers everything with a sign-on page, as a hotel's network does. */
let answers: Version | "portal" = "one";
let server: Server;
let browser: Browser;
let page: Page;

const entryOf = (version: Version): string => `/tablet/assets/tablet-${version}.js`;
const pathOf = (path: string): string => new URL(path, import.meta.url).pathname;

async function bundled(path: string, more: BuildOptions = {}): Promise<string> {
  const options = { bundle: true, write: false, format: "iife", target: "es2022" } as const;
  const { outputFiles } = await build({ ...options, entryPoints: [pathOf(path)], ...more });
  return outputFiles?.[0]?.text ?? "";
}

const worker = (version: Version): Promise<string> =>
  bundled("../../src/tablet/sw.ts", {
    define: {
      __SHELL__: JSON.stringify(["/tablet/", entryOf(version)]),
      __VERSION__: JSON.stringify(version),
    },
  });

const html = (version: Version): string =>
  `<!doctype html><title>${version}</title><script src="${entryOf(version)}"></script>`;

beforeAll(async () => {
  const script = await bundled("../tablet/support/worker-page.ts");
  const workers = { one: await worker("one"), two: await worker("two") };
  server = createServer((request, reply) => {
    const send = (type: string, body: string): void => {
      reply.writeHead(200, { "content-type": type, "cache-control": "no-cache" }).end(body);
    };
    if (answers === "portal") return send("text/html", "<title>Guest network</title>");
    if (request.url === "/tablet/") return send("text/html", html(answers));
    if (request.url === "/tablet/sw.js") return send("text/javascript", workers[answers]);
    if (request.url === entryOf(answers)) return send("text/javascript", script);
    return send("application/json", JSON.stringify({ from: "service" }));
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  browser = await launchBrowser();
  page = await (await browser.newContext()).newPage();
  await page.goto(`http://localhost:${(server.address() as AddressInfo).port}/tablet/`);
  await page.evaluate("navigator.serviceWorker.ready.then(() => true)");
});
afterAll(async () => {
  await browser?.close();
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
});

/** A browser takes its time over a worker; how long is not what is tested. */
const PATIENT = { timeout: 20_000 };

const caches = (): Promise<string[]> => page.evaluate("caches.keys()");
const isReady = (): Promise<boolean> => page.evaluate("registered.then((r) => r.isReady())");

async function title(): Promise<string> {
  await page.reload();
  return page.title();
}

test("the page opens when a sign-on page answers everything, and when nobody does", async () => {
  expect(await caches()).toEqual(["holdpoint-shell-one"]);
  answers = "portal";
  expect(await title()).toBe("one");
  await page.context().setOffline(true);
  expect(await title()).toBe("one");
  expect(await isReady()).toBe(false);
  await page.context().setOffline(false);
});

test("what is asked of the service is never answered from the cache", async () => {
  answers = "one";
  const ask = "fetch('/api/v1/session').then((r) => r.json()).catch(() => 'nobody')";
  expect(await page.evaluate(ask)).toEqual({ from: "service" });
  await page.context().setOffline(true);
  expect(await page.evaluate(ask)).toBe("nobody");
  await page.context().setOffline(false);
  expect(await page.evaluate("caches.match('/api/v1/session').then((r) => r === undefined)")).toBe(
    true,
  );
});

test("a sign-on page is not taken for a newer version", async () => {
  answers = "portal";
  await page.evaluate("registered.then((r) => r.lookForNewVersion())");
  expect(await caches()).toEqual(["holdpoint-shell-one"]);
  expect(await title()).toBe("one");
});

test("a newer version is told, waits, and is used when the page says so", async () => {
  answers = "two";
  await page.evaluate("registered.then((r) => r.lookForNewVersion())");
  await expect.poll(isReady, PATIENT).toBe(true);
  expect(await title()).toBe("one");
  expect(await caches()).toEqual(["holdpoint-shell-one", "holdpoint-shell-two"]);
  expect(await isReady()).toBe(true);
  await page.evaluate("registered.then((r) => r.useNewVersion())");
  await expect.poll(caches, PATIENT).toEqual(["holdpoint-shell-two"]);
  answers = "portal";
  expect(await title()).toBe("two");
});
