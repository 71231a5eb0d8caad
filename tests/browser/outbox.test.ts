// The outbox and the calendar's page as a person sees them: wide and narrow, light and dark.
import { mkdirSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { queueMail } from "../../src/features/mail/store.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { rowsIn, SMALL_PLAN } from "../support/work-rows.ts";

const OUTPUT = new URL("../output/", import.meta.url).pathname;
let service: TestService;
let browser: Browser;
let baseUrl: string;
let mailId: string;

beforeAll(async () => {
  mkdirSync(OUTPUT, { recursive: true });
  service = await startService();
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
  await fillOutbox();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});

async function fillOutbox(): Promise<void> {
  const { firmId } = service.firm;
  const rows = rowsIn(service);
  const { id: siteId, customerId } = await rows.site();
  const crewId = await rows.crew("North crew", [await rows.person("Bo Ash")]);
  const planVersionId = (await rows.planVersion(SMALL_PLAN)).id;
  const office = service.as(service.firm.people.office);
  for (const from of ["08:30", "13:00"]) {
    const local = { day: "2031-05-15", from, to: from === "08:30" ? "12:00" : "16:00" };
    const jobId = await rows.job(siteId, planVersionId);
    await office.post(`/api/v1/jobs/${jobId}/visits`).send({ crewId, local });
  }
  await inFirm(service.db, firmId, async (tx) => {
    const email = "ida.rook.with.a.long.name@a-long-name-of-a-domain.example";
    const failing = { emailFailingAt: new Date(), emailFailingReason: "550 5.1.1 No such user" };
    await tx.customer.updateMany({ where: { id: customerId }, data: { email } });
    await tx.customer.updateMany({ where: { id: customerId }, data: failing });
    const texts = { textBody: "Dear Ida Rook,\n\nText.\n", htmlBody: "<p>Text</p>" };
    const states = ["sent", "failed", "returned", "held", "waiting"] as const;
    for (const state of states) {
      const subject = "Your visit on Thursday, 15 May 2031";
      const kind = "visit-confirmation" as const;
      const mail = { recipient: email, subject, host: "holdpoint.example", kind, ...texts };
      const { id } = await queueMail(tx, mail, new Date());
      const lastError = state === "failed" ? "Recipient refused: 550 5.1.1 No such user" : null;
      await tx.mail.updateMany({ where: { id }, data: { state, lastError, attempts: 1 } });
      mailId = id;
    }
  });
}

const SIZES = [
  { name: "1280-light", viewport: { width: 1280, height: 900 }, colorScheme: "light" },
  { name: "320-dark", viewport: { width: 320, height: 700 }, colorScheme: "dark" },
] as const;

test.each(SIZES)(
  "the pages hold at $name: nothing is cut, nothing is unreachable",
  async (size) => {
    const { name, ...options } = size;
    const page = await signedInPage(browser, baseUrl, "/outbox", options);
    const faults = consoleFaults(page);
    const paths = ["/outbox", `/outbox/${mailId}`, "/outbox/settings", "/account/calendar"];
    for (const path of paths) {
      await page.goto(`${baseUrl}${path}`);
      const file = path.replace(mailId, "mail").replaceAll("/", "-");
      await page.screenshot({ path: `${OUTPUT}mail${file}-${name}.png`, fullPage: true });
      const over = "document.documentElement.scrollWidth - document.documentElement.clientWidth";
      expect(await page.evaluate(over), path).toBe(0);
      expect(await accessibilityFaults(page), path).toEqual([]);
    }
    expect(faults).toEqual([]);
    await page.context().close();
  },
);

test("a mail is held by the keyboard alone, and an address is made and shown", async () => {
  const page = await signedInPage(browser, baseUrl, `/outbox/${mailId}`, { role: "owner" });
  await page.getByRole("button", { name: "Hold" }).focus();
  await page.keyboard.press("Enter");
  await page.getByText("‖ Held").waitFor();
  await page.goto(`${baseUrl}/account/calendar`);
  await page.getByRole("button", { name: "Make a calendar address" }).press("Enter");
  const address = await page.getByLabel("Address", { exact: true }).inputValue();
  expect(address).toMatch(/^http:\/\/localhost:\d+\/calendar\/[\w-]{43}\.ics$/);
  expect((await fetch(address)).status).toBe(200);
  await page.screenshot({ path: `${OUTPUT}mail-calendar-made.png`, fullPage: true });
  await page.context().close();
});
