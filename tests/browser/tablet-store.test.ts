// The tablet's store in a real browser: a full store says so and stays whole; a cleared one is
// noticed. By chance and often: tests/faults/tablet-full and tablet-evicted; killed:
// tests/faults/tablet-killed.
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { LastingBrowser } from "../support/lasting-browser.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { ask, clearStore, ProbePages, protocol } from "../support/probe-page.ts";

let service: TestService;
let pages: ProbePages;
let jobId: string;
const browser = new LastingBrowser();
let context: BrowserContext;

beforeAll(async () => {
  service = await startService();
  pages = await ProbePages.before(service);
  ({ jobId } = await addPracticeJob(service));
  context = await browser.start();
});
afterAll(async () => {
  await browser.stop();
  await service.stop();
});

const originOf = (host: string): string => `http://${host}:${pages.port}`;

test("a full store refuses, writes nothing, and goes on once there is room", async () => {
  // The same service under another address: a browser believes for a while in the room it saw last.
  const fresh = originOf("full.localhost");
  const cdp = await protocol(await context.newPage());
  await cdp.send("Storage.overrideQuotaForOrigin", { origin: fresh, quotaSize: 2_000_000 });
  const page = await pages.open(context, { jobId, at: fresh });
  await ask(page, "keep(1000)");
  expect(await ask(page, "tryToKeep(6000000)")).toBe("full");
  expect(await ask(page, "health()")).toMatchObject({ room: "full", lost: 0 });
  expect(await ask(page, "counts()")).toMatchObject({ kept: 1, photosWaiting: 1 });
  await cdp.send("Storage.overrideQuotaForOrigin", { origin: fresh });
  await ask(page, "keep(6000000)");
  expect(await ask(page, "health()")).not.toMatchObject({ room: "full" });
  const seqs = (await ask<{ deviceSeq: number }[]>(page, "ops()")).map((op) => op.deviceSeq);
  expect(seqs).toEqual([1, 2]);
  expect(await ask(page, "counts()")).toMatchObject({ kept: 2, photosWaiting: 2 });
  await page.close();
});

describe("a store that the browser clears", () => {
  async function signedInPage(): Promise<Page> {
    const page = await pages.open(context, { jobId, at: originOf("localhost") });
    await pages.signIn(page);
    return page;
  }

  async function again(page: Page): Promise<Page> {
    await page.close();
    return pages.open(context, { jobId, at: originOf("localhost") });
  }

  test("after everything was sent: nothing is lost", async () => {
    let page = await signedInPage();
    for (let kept = 0; kept < 3; kept += 1) await ask(page, "keep()");
    expect(await ask(page, "round()")).toMatchObject({ state: "settled" });
    // Once more, now that the list of the day is known by its ETag.
    expect(await ask(page, "round()")).toMatchObject({ state: "settled" });
    await clearStore(page);
    page = await again(page);
    expect(await ask(page, "health()")).toMatchObject({ lost: 0 });
    await page.close();
  });

  test("before it was sent: how many are lost is told, and the file brings them back", async () => {
    let page = await signedInPage();
    for (let kept = 0; kept < 3; kept += 1) await ask(page, "keep()");
    const file = await ask<string>(page, "file()");
    await clearStore(page);
    page = await again(page);
    expect(await ask(page, "health()")).toMatchObject({ lost: 3 });
    expect(await ask(page, `restore(${JSON.stringify(file)})`)).toBe(3);
    expect(await ask(page, "health()")).toMatchObject({ lost: 0 });
    expect(await ask(page, "round()")).toMatchObject({ state: "settled" });
    expect(await ask(page, "counts()")).toMatchObject({ waiting: 0, held: 0, refused: 0 });
    await page.close();
  });

  test("under an open page: the next thing kept is kept, and the loss is told", async () => {
    const page = await signedInPage();
    await ask(page, "keep()");
    await clearStore(page);
    await ask(page, "keep()");
    expect(await ask(page, "health()")).toMatchObject({ lost: 1 });
    expect(await ask(page, "counts()")).toMatchObject({ kept: 1 });
    expect(await ask(page, "round()")).toMatchObject({ state: "settled" });
    await page.close();
  });
});
