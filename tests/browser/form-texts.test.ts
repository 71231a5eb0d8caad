// The HTML Standard takes a line end off the beginning of a textarea, and sends line ends as CRLF:
// what a browser shows of a text, and sends back untouched, is that text.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;
beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage());
});
afterAll(() => close());

test.each(["\nGate code\n\n\t4711\n", "\n\n\n<b>&amp;</b> ", "no line end first\n"])(
  "%j is shown in a form as it is, and saved untouched stays so",
  async (note) => {
    const office = service.as(service.firm.people.office);
    const made = await office.post("/api/v1/customers").send({ name: "Kim", note });
    const path = `/customers/${made.body.id}/edit`;
    const page = await signedInPage(browser, baseUrl, path);
    expect(await page.locator("textarea[name=note]").inputValue()).toBe(note);
    await page.getByLabel("Name").fill("Kim Larch");
    await page.getByLabel("Name").press("Enter");
    await page.waitForURL((url) => url.pathname !== path);
    const kept = (await office.get(`/api/v1/customers/${made.body.id}`)).body;
    expect([kept.name, kept.note]).toEqual(["Kim Larch", note]);
    await page.context().close();
  },
);
