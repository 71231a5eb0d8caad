// What a browser that is held to a telephone's measure sees of a page: when it paints, what blocks
// it, what moves, and what comes over the line. The measure, the weights and the curves are those
// of Lighthouse 12 for a telephone (from memory): 4G that is slow, a processor slowed four times.
import type { BrowserContext, CDPSession, Page } from "playwright-core";

export const SLOWDOWN = 4;
const SLOW_4G = {
  offline: false,
  latency: 150,
  downloadThroughput: (1.6 * 1024 * 1024) / 8,
  uploadThroughput: (750 * 1024) / 8,
};
/** So long after it was loaded a page has done what it does by itself. */
const QUIET_MS = 1500;

export interface PageFigures {
  firstPaintMs: number;
  largestPaintMs: number;
  blockedMs: number;
  moved: number;
  requests: number;
  kilobytes: number;
}

const WATCH = `globalThis.seen = { largest: 0, moved: 0, tasks: [] };
  const watch = (type, each) => new PerformanceObserver((list) => list.getEntries().forEach(each))
    .observe({ type, buffered: true });
  watch("largest-contentful-paint", (entry) => { seen.largest = entry.startTime; });
  watch("layout-shift", (entry) => { if (!entry.hadRecentInput) seen.moved += entry.value; });
  watch("longtask", (entry) => seen.tasks.push([entry.startTime, entry.duration]));`;
const READ = `({ ...seen,
  first: performance.getEntriesByName("first-contentful-paint")[0].startTime })`;

interface Seen {
  first: number;
  largest: number;
  moved: number;
  tasks: [start: number, duration: number][];
}

/** One opening with nothing in the cache. */
export async function figuresOf(context: BrowserContext, address: string): Promise<PageFigures> {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  const line = await held(session);
  await page.addInitScript(WATCH);
  await page.goto(address, { waitUntil: "load" });
  await page.waitForTimeout(QUIET_MS);
  const seen = (await page.evaluate(READ)) as Seen;
  await page.close();
  const tasks = seen.tasks.filter(([start]) => start >= seen.first);
  return {
    ...{ firstPaintMs: seen.first, largestPaintMs: seen.largest, moved: seen.moved },
    blockedMs: tasks.reduce((sum, [, duration]) => sum + Math.max(0, duration - 50), 0),
    ...{ requests: line.requests, kilobytes: line.bytes / 1024 },
  };
}

async function held(session: CDPSession): Promise<{ requests: number; bytes: number }> {
  const line = { requests: 0, bytes: 0 };
  session.on("Network.loadingFinished", ({ encodedDataLength }) => {
    line.requests += 1;
    line.bytes += encodedDataLength;
  });
  await session.send("Network.enable");
  await session.send("Network.setCacheDisabled", { cacheDisabled: true });
  await session.send("Network.emulateNetworkConditions", SLOW_4G);
  await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWDOWN });
  return line;
}

/** By figure: its weight, the value that scores 0.9, and the one that scores 0.5. */
const CURVES: readonly [
  of: (page: PageFigures) => number,
  weight: number,
  good: number,
  half: number,
][] = [
  [(page) => page.firstPaintMs, 10, 1800, 3000],
  [(page) => page.largestPaintMs, 25, 2500, 4000],
  [(page) => page.blockedMs, 30, 200, 600],
  [(page) => page.moved, 25, 0.1, 0.25],
];

/** 0 to 100, of these four figures by their weights; how fast a page fills is not measured. */
export function scoreOf(page: PageFigures): number {
  const parts = CURVES.map(([of, weight, good, half]) => weight * logNormal(of(page), good, half));
  const weights = CURVES.reduce((sum, [, weight]) => sum + weight, 0);
  return (100 * parts.reduce((sum, part) => sum + part, 0)) / weights;
}

function logNormal(value: number, good: number, half: number): number {
  if (value <= 0) return 1;
  const spread = Math.log(half / good) / 1.2815515655446004;
  return 1 - normal(Math.log(value / half) / spread);
}

/** The standard normal distribution; Abramowitz and Stegun 26.2.17, to 7.5e-8 (from memory). */
function normal(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  const factors = [0.31938153, -0.356563782, 1.781477937, -1.821255978, 1.330274429];
  const tail = density * factors.reduce((sum, factor, at) => sum + factor * t ** (at + 1), 0);
  return x >= 0 ? 1 - tail : tail;
}

export async function signIn(page: Page, address: string, email: string, password: string) {
  await page.goto(`${address}/sign-in`);
  await page.getByLabel("E-mail address").fill(email);
  await page.getByLabel("Password").fill(password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL(`${address}/`);
}
