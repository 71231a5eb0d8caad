// What goes wrong around a visit is told on the page, and nothing that was kept is lost by it.
import { mkdirSync } from "node:fs";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { Hand, openTablet } from "../support/tablet-hand.ts";
import { addTabletVisit, type TabletVisitRows } from "../support/tablet-visit.ts";

const OUTPUT = new URL("../../.output/tablet/", import.meta.url).pathname;
let service: TestService;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let hand: Hand;
let baseUrl: string;
let visit: TabletVisitRows;

beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  service = await startService();
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

/** Each test has a job of its own, on a tablet of its own, with its first item open. */
beforeEach(async () => {
  await context?.close();
  visit = await addTabletVisit(service, new Date());
  context = await browser.newContext({ viewport: { width: 412, height: 860 } });
  page = await openTablet(context, baseUrl);
  hand = new Hand(page);
  await page.locator(`a[href="#/job/${visit.jobId}"]`).click();
  await hand.at("Everyone briefed");
}, 60_000);

const shot = (name: string) => page.screenshot({ path: `${OUTPUT}${name}.png`, fullPage: true });

/** Signal comes back after a moment without: the page asks the server again. */
async function signalReturns(): Promise<void> {
  await context.setOffline(true);
  await context.setOffline(false);
}

async function changeJob(data: { state: "cancelled" }): Promise<void> {
  const { firmId } = service.firm;
  const where = { firmId_id: { firmId, id: visit.jobId } };
  await inFirm(service.db, firmId, (tx) => tx.job.update({ where, data }));
}

async function openItem(itemId: string, heading: string): Promise<void> {
  await page.evaluate(`location.hash = "#/job/${visit.jobId}/item/${itemId}/"`);
  await hand.at(heading);
}

test("what the office changes is told, and shown only once it is taken over", async () => {
  const { firmId } = service.firm;
  await inFirm(service.db, firmId, (tx) =>
    tx.jobUnit.deleteMany({ where: { jobId: visit.jobId, position: 2 } }),
  );
  await signalReturns();
  await page.getByText(`Unit ${visit.serials[1]} was taken off the job.`).waitFor();
  await shot("banner-changed");
  await page.getByRole("link", { name: "All items" }).click();
  await page.getByText(visit.serials[1]!).first().waitFor();
  await hand.tap("Take over");
  await page.getByText("The office changed this job.").waitFor({ state: "detached" });
  expect(await page.locator("main", { hasText: visit.serials[1]! }).count()).toBe(0);
});

test("an answer to a job cancelled meanwhile is held for the office and says so", async () => {
  await context.setOffline(true);
  await changeJob({ state: "cancelled" });
  await hand.keepAndGoOn("Done");
  await context.setOffline(false);
  await page.getByText("This job is cancelled.").waitFor({ timeout: 20_000 });
  await page.getByRole("link", { name: /All sent|waiting/ }).click();
  await page.getByText("on the server, held for the office").waitFor({ timeout: 20_000 });
  await shot("outbox-held");
});

test("when the session ends one keeps working, and signing in again sends everything", async () => {
  await context.clearCookies();
  await hand.keepAndGoOn("Done");
  await page.getByText("The session has ended.").waitFor();
  await shot("banner-session");
  await hand.at("Serial number");
  await page.getByLabel("Serial number").fill(visit.serials[0]!);
  await hand.keepAndGoOn();
  await page.getByRole("region", { name: "Notices" }).getByText("Sign in again").click();
  await hand.at("Sign in again");
  await page.getByLabel("E-mail address").fill("installer@alder.example");
  await page.getByLabel("Password").fill(PASSWORD);
  await page.locator("form").getByRole("button", { name: "Sign in" }).click();
  await page.getByText("2 kept on this tablet, 0 waiting.").waitFor();
  const office = service.as(service.firm.people.office);
  const { body } = await office.get(`/api/v1/jobs/${visit.jobId}/answers`);
  expect(body.items).toHaveLength(2);
});

test("another's answer to the same item, unseen by either, is noted at the item", async () => {
  await context.setOffline(true);
  const other = service.as(service.firm.people.manager);
  const answer = {
    ...{ id: uuidv7(), itemId: "holes", subject: "" },
    ...{ takenAt: new Date().toISOString(), value: { count: 4 } },
  };
  const reply = await other.post(`/api/v1/jobs/${visit.jobId}/answers`).send({ answers: [answer] });
  expect(reply.status).toBe(201);
  await openItem("holes", "Anchor holes");
  await hand.number("3");
  await hand.tap("Keep");
  await page.getByText("Kept. Not met").waitFor();
  await context.setOffline(false);
  await page.getByRole("link", { name: "All sent" }).waitFor({ timeout: 20_000 });
  await hand.tap("Answer again");
  await page.getByText("Two tablets answered this").waitFor();
  await page.getByText("2 attempts").click();
  await shot("two-tablets");
  expect(await page.locator(".attempts li").allTextContents()).toHaveLength(2);
});

test("a full store is told and nothing is shown as kept; what was typed stays", async () => {
  await openItem("holes", "Anchor holes");
  await hand.number("4");
  const full = "throw new DOMException('no room', 'QuotaExceededError')";
  await page.evaluate(`for (const name of ["add", "put"]) {
    IDBObjectStore.prototype["old" + name] ??= IDBObjectStore.prototype[name];
    IDBObjectStore.prototype[name] = () => { ${full}; };
  }`);
  await hand.tap("Keep");
  await page
    .getByText("There is no room left on this tablet, so this was not kept.")
    .first()
    .waitFor();
  await shot("store-full");
  expect(await page.getByText("Kept. Met").count()).toBe(0);
  expect(await page.getByLabel("Count").inputValue()).toBe("4");
  await page.evaluate(`for (const name of ["add", "put"]) {
    IDBObjectStore.prototype[name] = IDBObjectStore.prototype["old" + name];
  }`);
  await hand.tap("Keep");
  await page.getByText("Kept. Met").waitFor();
});

test("a network answering with its own page is told, and nothing is taken for sent", async () => {
  await page.route("**/api/v1/**", (route) =>
    route.fulfill({ contentType: "text/html", body: "<h1>Welcome to the guest network</h1>" }),
  );
  await hand.keepAndGoOn("Done");
  await page.getByText("This network asks for something first.").waitFor();
  await page.getByRole("link", { name: "1 waiting" }).waitFor();
  await page.unroute("**/api/v1/**");
  await page.getByRole("link", { name: "1 waiting" }).click();
  await hand.tap("Send now");
  await page.getByText("1 kept on this tablet, 0 waiting.").waitFor({ timeout: 20_000 });
});
