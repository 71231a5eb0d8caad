// What has to be told whatever is on the screen, and the way on from it, in a real browser.
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bundle, tabletBundle } from "../../src/features/tablet/bundle.ts";
import { bundleFile } from "../../src/web/bundle-file.ts";
import { accessFaults } from "../support/tablet-axe.ts";
import { refusal, TabletStage } from "../support/tablet-stage.ts";

let stage: TabletStage;
beforeAll(async () => {
  stage = await TabletStage.open();
});
afterAll(() => stage?.close());

const WORKER = "/tablet/sw.js";

/** The service after an update, as far as a browser sees: another worker at the same address. */
async function withNewerWorker(work: () => Promise<void>): Promise<void> {
  const { files, version } = await tabletBundle();
  const served = files as Map<string, Bundle["files"] extends ReadonlyMap<string, infer F> ? F : 0>;
  const before = served.get(WORKER)!;
  const text = before.bytes.toString().replaceAll(version, "f".repeat(version.length));
  expect(text).not.toBe(before.bytes.toString());
  served.set(WORKER, await bundleFile(WORKER, text, "revalidate"));
  try {
    await work();
  } finally {
    served.set(WORKER, before);
  }
}

test("a new version is told once it is ready, and used when the person says so", async () => {
  const { page, notice, hand } = await bound();
  await withNewerWorker(async () => {
    await hand.keepAndGoOn("Done");
    await page.reload();
    await notice("A new version of this page is ready. What is kept stays.").waitFor();
    expect(await accessFaults(page, "banner-new-version", ["light"])).toEqual([]);
    const loaded = page.waitForEvent("load");
    await hand.tap("Use it now");
    await loaded;
    await hand.at("Serial number");
    expect(await notice(/new version/).count()).toBe(0);
    const names = await page.evaluate<string[]>("caches.keys()");
    expect(names).toEqual([`holdpoint-shell-${"f".repeat(64)}`]);
  });
});

test("newer rules of the server are told at the job, and loading anew asks for them", async () => {
  const { page, notice } = await bound((context) =>
    context.route("**/api/v1/tablet/packets/**", async (route) => {
      const reply = await route.fetch();
      await route.fulfill({ json: { ...(await reply.json()), ruleVersion: "gate/99" } });
    }),
  );
  await notice("The server judges by newer rules than this page.").waitFor();
  expect(await accessFaults(page, "banner-newer-rules", ["dark"])).toEqual([]);
  const loaded = page.waitForEvent("load");
  await page.getByRole("button", { name: "Load anew" }).click();
  await loaded;
});

test("a service that no longer reads the page is told, and nothing is lost by it", async () => {
  const { context, page, notice, hand } = await bound();
  const ops = "**/api/v1/tablet/ops";
  await context.route(ops, (route) => route.fulfill(refusal(404, "There is no such address.")));
  await hand.keepAndGoOn("Done");
  await notice("The service is newer than this page, which goes on keeping.").waitFor();
  await page.getByRole("link", { name: "New version, 1 waiting" }).waitFor();
  expect(await accessFaults(page, "banner-outdated", ["light"])).toEqual([]);
  await context.unroute(ops);
  await hand.tap("Load anew");
  await page.getByRole("link", { name: "All sent" }).waitFor({ timeout: 15_000 });
});

test("a sign-on page in between is told, at the outbox in full", async () => {
  const { context, page, notice, hand } = await bound();
  const reply = { contentType: "text/html", body: "<h1>Welcome to the guest network</h1>" };
  await context.route("**/api/v1/**", (route) => route.fulfill(reply));
  await hand.keepAndGoOn("Done");
  await notice("This network asks for something first.").waitFor();
  await page.getByRole("link", { name: "1 waiting" }).click();
  await page.getByText("The network answers instead of the service").waitFor();
  expect(await accessFaults(page, "banner-stranger", ["sun"])).toEqual([]);
});

/** A tablet with the first item of its visit open. */
async function bound(before?: Parameters<TabletStage["tablet"]>[0]) {
  const tablet = await stage.tablet(before);
  await tablet.at("", "Everyone briefed");
  return { ...tablet, notice: tablet.notice.bind(tablet) };
}
