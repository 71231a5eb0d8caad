// `npm run bench:pages`: the office's pages with the demo scenario in them, each opened with
// nothing in the cache in a browser held to a telephone's measure, beside a page of the same
// browser that has one sentence and nothing else. Nothing here is a test.
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BrowserContext } from "playwright-core";
import { buildApp } from "../src/app.ts";
import { readConfig } from "../src/config.ts";
import { connect } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { loadDemo } from "../src/demo/load-demo.ts";
import { launchBrowser } from "../tests/support/browser.ts";
import { figuresOf, type PageFigures, SLOWDOWN, scoreOf, signIn } from "./page-figures.ts";
import { row } from "./row.ts";

const PASSWORD = "a password for the bench alone";
const OPENINGS = 3;
const PATHS = [
  ...["/", "/today", "/diary", "/jobs", "/customers", "/sites", "/units", "/instruments"],
  ...["/goods-in/stock", "/fleet", "/firmware", "/concessions", "/nonconformances", "/warranty"],
  ...["/plans", "/people", "/outbox", "/imports"],
];
const ONE_OF = ["/jobs/", "/sites/", "/units/"];

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-pages-"));
chmodSync(folder, 0o711);
const cluster = await startCluster({ folder, superuserPassword: "bench", settings: [] });
try {
  await measure();
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}

async function measure(): Promise<void> {
  const names = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", names);
  await migrate(urls.ownerUrl);
  const db = connect({ url: urls.appUrl, poolSize: 8 });
  await loadDemo(db, folder, PASSWORD, new Date());
  const config = readConfig({ DATA_DIR: folder, LOG_LEVEL: "silent" }, folder);
  const app = await buildApp({ db, config, jwtSecret: "a secret for the bench and nothing else" });
  const browser = await launchBrowser();
  try {
    const address = (await app.listen({ port: 0, host: "127.0.0.1" })).replace(
      "127.0.0.1",
      "localhost",
    );
    const context = await browser.newContext({ viewport: { width: 412, height: 823 } });
    await signIn(await context.newPage(), address, "morwenna@copperbeck.example", PASSWORD);
    await compare(context, address);
  } finally {
    await browser.close();
    await app.close();
    await db.close();
  }
}

async function compare(context: BrowserContext, address: string): Promise<void> {
  const bare = createServer((_request, reply) => {
    reply.setHeader("content-type", "text/html; charset=utf-8");
    reply.end("<!doctype html><title>One</title><p>One sentence and nothing else.</p>");
  });
  await new Promise<void>((resolve) => bare.listen(0, "127.0.0.1", resolve));
  const bareAddress = `http://localhost:${(bare.address() as AddressInfo).port}/`;
  const least = await middleOf(context, bareAddress);
  bare.close();
  console.log(`slow 4G, processor slowed ${SLOWDOWN} times, the middle of ${OPENINGS} openings`);
  console.log("page | first paint | largest paint | blocked | moved | requests | KB | score");
  const pages: PageFigures[] = [];
  for (const path of [...PATHS, ...(await firstOfEach(context, address))]) {
    const page = await middleOf(context, address + path);
    pages.push(page);
    console.log(`${path.replace(/[0-9a-f-]{36}/, ":id")} | ${told(page)}`);
  }
  console.log(`one sentence | ${told(least)}`);
  const scores = pages.map(scoreOf);
  const slowest = Math.max(...pages.map((page) => page.largestPaintMs));
  const ratio = slowest / least.largestPaintMs;
  const ms = (value: number): string => `${value.toFixed(0)} ms`;
  row(
    ...(["office pages: the slowest largest paint", ms(slowest)] as const),
    ...([`one sentence ${ms(least.largestPaintMs)}`, ratio.toFixed(1), "≤ 2500 ms"] as const),
  );
  const lowest = Math.min(...scores).toFixed(0);
  row("office pages: the lowest score of 100", lowest, scoreOf(least).toFixed(0), "–", "≥ 90");
}

/** The first thing that each of these lists leads to. */
async function firstOfEach(context: BrowserContext, address: string): Promise<string[]> {
  const page = await context.newPage();
  const found: string[] = [];
  for (const path of ONE_OF) {
    await page.goto(address + path.slice(0, -1));
    const links = await page.locator(`main table a[href^="${path}"]`).all();
    const href = await links[0]?.getAttribute("href");
    if (href) found.push(href);
  }
  await page.close();
  return found;
}

async function middleOf(context: BrowserContext, address: string): Promise<PageFigures> {
  const all: PageFigures[] = [];
  for (let count = 0; count < OPENINGS; count += 1) all.push(await figuresOf(context, address));
  const sorted = all.toSorted((one, other) => one.largestPaintMs - other.largestPaintMs);
  return sorted[Math.floor(OPENINGS / 2)] as PageFigures;
}

function told(page: PageFigures): string {
  const times = [page.firstPaintMs, page.largestPaintMs, page.blockedMs];
  return [
    ...[...times.map((ms) => `${ms.toFixed(0)} ms`), page.moved.toFixed(3), page.requests],
    ...[page.kilobytes.toFixed(1), scoreOf(page).toFixed(0)],
  ].join(" | ");
}
