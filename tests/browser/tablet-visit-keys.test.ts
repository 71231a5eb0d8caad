// The same visit with the keyboard alone: every item has a way that needs no pointer, the focus is
// never lost, and what was typed outlives a reload.
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { cameraPicture } from "../support/tablet-hand.ts";
import { Keys } from "../support/tablet-keys.ts";
import { addTabletVisit, type TabletVisitRows } from "../support/tablet-visit.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let visit: TabletVisitRows;

beforeAll(async () => {
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

async function signIn(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${baseUrl}/tablet/`);
  const keys = new Keys(page);
  await page.getByLabel("Password").waitFor();
  await keys.to(/^E-mail address$/);
  await keys.type("installer@alder.example");
  await keys.to(/^Password$/);
  await keys.type(PASSWORD);
  await keys.press("Enter");
  await page.getByRole("link", { name: "Install two packs" }).waitFor();
  await page.evaluate("navigator.serviceWorker.ready.then(() => true)");
  return page;
}

async function arrive(keys: Keys): Promise<void> {
  await keys.to(/^Install two packs$/);
  await keys.press("Enter");
  await keys.at("Everyone briefed");
  await keys.keep(/^Done$/);
  for (const serial of visit.serials) {
    await keys.at("Serial number");
    await keys.to(/^Serial number$/);
    await keys.type(serial.toLowerCase());
    await keys.keep();
  }
  await keys.at("What the wall is");
  await keys.to(/^Solid brick$/);
  await keys.press("Space");
  await keys.keep();
}

async function typed(keys: Keys, number: string, instrument?: RegExp): Promise<void> {
  if (instrument) {
    await keys.to(instrument);
    await keys.press("Enter");
    // Chosen: the focus goes to the field.
    await keys.until("document.activeElement?.id === 'number'");
  } else await keys.to(/^(Reading|Count)$/);
  await keys.type(number);
}

async function fix(keys: Keys): Promise<void> {
  await keys.at("Anchor holes");
  await typed(keys, "4");
  await keys.press("Enter");
  await keys.goOn();
  await keys.at("Depth of the shallowest hole");
  await typed(keys, "62", /DG-02/);
  await keys.press("Enter");
  await keys.goOn();
  await keys.at("Bracket anchors");
  await typed(keys, "12", /TW-11/);
  await keys.to(/^Fastener 1, turn 1/);
  for (const point of [3, 2, 4]) {
    await keys.press("Enter");
    await keys.until(
      `document.activeElement?.getAttribute("aria-label")?.startsWith("Fastener ${point},")`,
    );
  }
  await keys.press("Enter");
  await keys.keep();
  for (const position of ["0", "1"]) {
    await keys.at("Address switch");
    await keys.to(new RegExp(`^Stands at ${position}, as needed$`));
    await keys.press("Enter");
    await keys.keep();
  }
  await keys.at("The finished wall");
  // Asked for before the way to the button, so that the browser is listened to when it is pressed.
  const choosing = keys.page.waitForEvent("filechooser");
  await keys.to(/^Take a photo$/);
  await keys.press("Enter");
  const chooser = await choosing;
  const buffer = await cameraPicture(90);
  await chooser.setFiles({ name: "camera.jpg", mimeType: "image/jpeg", buffer });
  await keys.page.getByRole("img", { name: "Photo 1" }).waitFor();
  await keys.keep();
}

test("a visit is done by keyboard alone, and a half-typed name outlives a reload", async () => {
  const context = await browser.newContext({ viewport: { width: 820, height: 1100 } });
  const page = await signIn(context);
  await context.setOffline(true);
  const keys = new Keys(page);
  await arrive(keys);
  await fix(keys);
  await keys.at("Switched on");
  await keys.keep(/^Done$/);
  await keys.at("Signature");
  await keys.to(/^Name of the customer/);
  await keys.type("Ida Rook");
  await page.waitForTimeout(400);
  await page.reload();
  await page.locator("main h1", { hasText: "Signature" }).waitFor();
  const name = page.getByLabel("Name of the customer who signs");
  await expect.poll(() => name.inputValue()).toBe("Ida Rook");
  expect(await page.getByText("the name was typed").isVisible()).toBe(true);
  await keys.keep();
  await page.locator("main h1", { hasText: "Bank voltage" }).waitFor({ timeout: 8000 });
  await typed(keys, ">60", /MM-07/);
  await page.locator(".foretold", { hasText: "Not met" }).waitFor();
  for (let key = 0; key < 3; key += 1) await keys.press("Backspace");
  await keys.type("52,1");
  await keys.press("Enter");
  await keys.goOn();
  await page.locator("main h1", { hasText: "Every item is met" }).waitFor();
  await context.setOffline(false);
  await page.getByRole("link", { name: "All sent" }).waitFor({ timeout: 20_000 });
  const office = service.as(service.firm.people.office);
  const { body } = await office.get(`/api/v1/jobs/${visit.jobId}/answers?limit=100`);
  expect(body.items).toHaveLength(13);
  const signed = body.items.find(({ itemId }: { itemId: string }) => itemId === "signed");
  expect(signed.value).toEqual({ name: "Ida Rook" });
  await context.close();
}, 90_000);
