// A whole visit on the tablet's page without signal, and what the server has of it afterwards.
import { mkdirSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { cameraPicture, Hand, openTablet } from "../support/tablet-hand.ts";
import { addTabletVisit, type TabletVisitRows } from "../support/tablet-visit.ts";

const OUTPUT = new URL("../../.output/tablet/", import.meta.url).pathname;
let service: TestService;
let browser: Browser;
let baseUrl: string;
let visit: TabletVisitRows;

beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  service = await startService();
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
  visit = await addTabletVisit(service, new Date());
});
afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

const shot = (page: Page, name: string) =>
  page.screenshot({ path: `${OUTPUT}${name}.png`, fullPage: true });

async function arrive(hand: Hand): Promise<void> {
  await hand.at("Everyone briefed");
  await shot(hand.page, "visit-confirm");
  await hand.keepAndGoOn("Done");
  for (const [index, serial] of visit.serials.entries()) {
    await hand.at(`(${index + 1} of 2)`);
    await hand.page.getByLabel("Serial number").fill(serial);
    if (index === 0) await shot(hand.page, "visit-serial");
    await hand.keepAndGoOn();
  }
  await hand.at("What the wall is");
  await hand.page.getByRole("radio", { name: "Solid brick" }).click();
  await shot(hand.page, "visit-choose");
  await hand.keepAndGoOn();
}

async function fix(hand: Hand): Promise<void> {
  await hand.at("Anchor holes");
  await hand.number("4");
  await hand.keepAndGoOn();
  await hand.at("Depth of the shallowest hole");
  await hand.instrument("DG-02");
  await hand.number("49.5");
  await shot(hand.page, "visit-depth-foretold");
  await hand.page.setViewportSize({ width: 1180, height: 820 });
  await shot(hand.page, "visit-wide");
  await hand.page.setViewportSize({ width: 412, height: 860 });
  await hand.tap("Keep");
  await hand.page.getByText("Kept. Not met").waitFor();
  await shot(hand.page, "visit-depth-failed");
  await hand.tap("Answer again");
  await hand.number("62");
  await hand.keepAndGoOn();
  await hand.at("Bracket anchors");
  await hand.instrument("TW-11");
  await hand.number("12");
  for (const point of [1, 3, 2, 4]) await hand.tap(new RegExp(`^Fastener ${point}, turn`));
  await shot(hand.page, "visit-tighten");
  await hand.keepAndGoOn();
  for (const [index, position] of ["0", "1"].entries()) {
    await hand.at(`(${index + 1} of 2)`);
    await hand.tap(`Stands at ${position}, as needed`);
    if (index === 0) await shot(hand.page, "visit-set");
    await hand.keepAndGoOn();
  }
  await hand.at("The finished wall");
  await hand.photo(await cameraPicture());
  await shot(hand.page, "visit-photo");
  await hand.keepAndGoOn();
}

async function prove(hand: Hand): Promise<void> {
  await hand.at("Switched on");
  await hand.keepAndGoOn("Done");
  await hand.at("Signature");
  await shot(hand.page, "visit-sign");
  await hand.page.getByLabel("Name of the customer who signs").fill("Ida Rook");
  await hand.draw();
  await hand.keepAndGoOn();
  await hand.page.locator("main h1", { hasText: /Wait|Bank voltage/ }).waitFor();
  await shot(hand.page, "visit-wait");
  await hand.at("Bank voltage");
  await hand.instrument("MM-07");
  await hand.number("52.1");
  await hand.keepAndGoOn();
}

/** What goes wrong in the page while it is used; being without signal is not. */
function faultsOf(page: Page): string[] {
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    const isOfNetwork = /Failed to load resource|ERR_INTERNET/.test(message.text());
    if (message.type() === "error" && !isOfNetwork) faults.push(message.text());
  });
  return faults;
}

/** Asks for the close-out; how many entries wait then. */
async function askToClose(hand: Hand): Promise<number> {
  const { page } = hand;
  await page.getByRole("link", { name: "Close-out", exact: true }).click();
  await hand.at("Close-out");
  await shot(page, "close-out-open");
  await hand.tap("Ask to close the job");
  await page.getByText("2 photos are still on this tablet.").waitFor();
  await page.getByRole("link", { name: /waiting/ }).click();
  await hand.at("Outbox");
  await shot(page, "outbox-waiting");
  const words = (await page.locator("main .do").textContent()) ?? "";
  return Number(/^\s*(\d+) kept/.exec(words)?.[1]);
}

const ANSWERED = [
  ...["address", "address", "anchors", "briefed", "depth", "depth", "holes", "picture"],
  ...["serial", "serial", "signed", "switched_on", "voltage", "wall"],
];

test("a visit done without signal is on the server afterwards, once, and closes", async () => {
  const context = await browser.newContext({ viewport: { width: 412, height: 860 } });
  const page = await openTablet(context, baseUrl);
  const faults = faultsOf(page);
  const link = page.getByRole("link", { name: "Install two packs" });
  await link.waitFor();
  await context.setOffline(true);
  await page.reload();
  await link.waitFor();
  await shot(page, "day");
  await link.click();
  const hand = new Hand(page);
  await arrive(hand);
  await fix(hand);
  await prove(hand);
  await hand.at("Every item is met");
  const kept = await askToClose(hand);

  await context.setOffline(false);
  await hand.tap("Send now");
  // One more than before: the close-out, asked for once the photos were there.
  await page.getByText(`${kept + 1} kept on this tablet, 0 waiting.`).waitFor({ timeout: 15_000 });
  await shot(page, "outbox-sent");
  const office = service.as(service.firm.people.office);
  const answers = await office.get(`/api/v1/jobs/${visit.jobId}/answers?limit=100`);
  const itemIds = answers.body.items.map((answer: { itemId: string }) => answer.itemId);
  expect(itemIds.toSorted()).toEqual(ANSWERED);
  const closed = await office.get(`/api/v1/jobs/${visit.jobId}`);
  expect(closed.body.state).toBe("closed");
  await page.goto(`${baseUrl}/tablet/#/job/${visit.jobId}/close-out`);
  await page.getByText("The server has closed the job.").waitFor();
  await shot(page, "close-out-closed");
  expect(faults).toEqual([]);
  await context.close();
}, 90_000);
