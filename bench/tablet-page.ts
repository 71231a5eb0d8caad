// A person's way through the page in a real browser: signing in, losing the signal, opening the
// page anew, and then answering item after item.
import type { Browser, Page } from "playwright-core";
import type { TabletBenchData } from "./tablet-data.ts";

const SLOWDOWN = 4;
const OPENINGS = 5;
const TAPS = 300;
const BARE_WRITES = 150;

export interface PageFigures {
  slowdown: number;
  /** From the start of the navigation to the day, and to the visit, of each opening. */
  dayMs: number[];
  visitMs: number[];
  /** From each tap until the store has said that the answer is kept. */
  keptMs: number[];
  /** In the same page, before and after the taps: bare writes of that size and durability. */
  bareMs: number[];
}

export async function measurePage(
  browser: Browser,
  address: string,
  data: TabletBenchData,
): Promise<PageFigures> {
  const context = await browser.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await context.newPage();
  await takeAlong(page, address, data);
  await context.setOffline(true);
  const session = await context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWDOWN });
  const dayMs = await openings(page, `${address}/tablet/#/`);
  const visitMs = await openings(page, `${address}/tablet/#/job/${data.jobId}`);
  const bareBefore = await bareWrites(page);
  const keptMs = await answerItems(page);
  const bareMs = [...bareBefore, ...(await bareWrites(page))];
  await context.close();
  return { slowdown: SLOWDOWN, dayMs, visitMs, keptMs, bareMs };
}

/** Signs in and waits until the visit and the page itself are on the tablet. */
async function takeAlong(page: Page, address: string, data: TabletBenchData): Promise<void> {
  await page.goto(`${address}/tablet/`);
  await page.getByLabel("E-mail address").fill(data.email);
  await page.getByLabel("Password").fill(data.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.getByText(data.reference).waitFor();
  await page.evaluate("navigator.serviceWorker.ready.then(() => undefined)");
}

async function openings(page: Page, address: string): Promise<number[]> {
  const times: number[] = [];
  for (let count = 0; count < OPENINGS; count += 1) {
    await page.goto("about:blank");
    await page.goto(address);
    await page.waitForFunction(() => performance.getEntriesByName("tablet-interactive").length > 0);
    times.push(...(await marksOf(page, "tablet-interactive")));
  }
  return times;
}

async function answerItems(page: Page): Promise<number[]> {
  for (let count = 0; count < TAPS; count += 1) {
    await page.getByRole("button", { name: "Done", exact: true }).click();
    await page.getByRole("button", { name: "Next", exact: true }).click();
  }
  const [taps, kept] = [await marksOf(page, "tap"), await marksOf(page, "kept")];
  if (taps.length !== TAPS || kept.length !== TAPS) {
    throw new Error(`${taps.length} taps were marked and ${kept.length} answers kept, of ${TAPS}`);
  }
  return kept.map((time, index) => time - (taps[index] ?? Number.NaN));
}

const BARE_WRITE = `(async () => {
  const opening = indexedDB.open("bare", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("facts");
  await new Promise((resolve) => { opening.onsuccess = resolve; });
  const times = [];
  for (let count = 0; count < ${BARE_WRITES}; count += 1) {
    await new Promise((resolve) => setTimeout(resolve, 50));
    const from = performance.now();
    const tx = opening.result.transaction("facts", "readwrite", { durability: "strict" });
    tx.objectStore("facts").put("x".repeat(700), count);
    tx.commit();
    await new Promise((resolve) => { tx.oncomplete = resolve; });
    times.push(performance.now() - from);
  }
  opening.result.close();
  return times;
})()`;

/** What the browser and the disk take for themselves, with the page at rest. */
const bareWrites = (page: Page): Promise<number[]> => page.evaluate(BARE_WRITE);

const marksOf = (page: Page, name: string): Promise<number[]> =>
  page.evaluate(
    (wanted) => performance.getEntriesByName(wanted).map(({ startTime }) => startTime),
    name,
  );
