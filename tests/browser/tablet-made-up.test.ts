// The tablet's views in the made-up language of src/language/languages.ts: what stands outside its
// brackets is the job's own, or did not come from the catalogue. Drawings are the domain's.
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { UNIT_SYMBOLS } from "../../src/domain/quantities/units.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { addTabletVisit } from "../support/tablet-visit.ts";

let service: TestService;
let browser: Browser;
let page: Page;
let jobHash: string;
/** Words that are not the page's: the job's and the product's names, and units. */
let known: string;

beforeAll(async () => {
  service = await startService();
  const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
  browser = await launchBrowser();
  const { jobId } = await addTabletVisit(service, new Date());
  jobHash = `#/job/${jobId}`;
  page = await browser.newPage({ locale: "en-XA", viewport: { width: 412, height: 860 } });
  await page.goto(`${address.replace("127.0.0.1", "localhost")}/tablet/`);
  await expectNothingElse();
  await page.locator("#email").fill("installer@alder.example");
  await page.locator("#password").fill(PASSWORD);
  await page.locator("button.main").click();
  await page.getByRole("link", { name: "Install two packs" }).waitFor();
  const packet = await page.evaluate<string>(`fetch("/api/v1/tablet/packets/${jobId}")
    .then((reply) => reply.text())`);
  const day = new Date().toLocaleDateString("en-GB", {
    ...{ weekday: "long", day: "numeric", month: "long", timeZone: "Europe/London" },
  });
  known = `${packet} ${day} Holdpoint ${UNIT_SYMBOLS.join(" ")}`;
});
afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

/** Words outside brackets, of texts and of names that are read out. */
const OUTSIDE = `(() => {
  const texts = [];
  const nodes = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (nodes.nextNode()) {
    const { data, parentElement } = nodes.currentNode;
    if (!parentElement.closest(".drawing")) texts.push(data);
  }
  for (const one of document.querySelectorAll("[aria-label], [alt], [title], [placeholder]")) {
    for (const name of ["aria-label", "alt", "title", "placeholder"]) {
      texts.push(one.getAttribute(name) ?? "");
    }
  }
  const bracketed = /⟦[^⟦⟧]*⟧/g;
  return texts
    .map((text) => text.replace(bracketed, " ").replace(bracketed, " "))
    .flatMap((text) => text.split(/[^\\p{L}\\p{N}·'’-]+/u))
    .filter((word) => /\\p{L}/u.test(word));
})()`;

async function expectNothingElse(): Promise<void> {
  await page.locator("main h1").waitFor();
  expect(await page.getByText("⟦").count()).toBeGreaterThan(0);
  const words = await page.evaluate<string[]>(OUTSIDE);
  expect(words.filter((word) => !(known ?? "").includes(word))).toEqual([]);
}

test.each([
  ["day", "#/", "⟦Víisíits⟧"],
  ["outbox", "#/outbox", "⟦Oúutbóox⟧"],
  ["about", "#/about", "⟦Thíis táabléet⟧"],
  ["sign-in-again", "#/sign-in", "⟦Síigñ íiñ áagáaíiñ⟧"],
  ["snag", "/snag", "⟦Nóotée áa sñáag⟧"],
  ["messages", "/messages", "⟦Méessáagées⟧"],
  ["list", "/list", "Install two packs"],
  ["confirm", "/item/briefed/", "Everyone briefed"],
  ["choose", "/item/wall/", "What the wall is"],
  ["measure", "/item/depth/", "Depth of the shallowest hole"],
  ["tighten", "/item/anchors/", "Bracket anchors"],
  ["photo", "/item/picture/", "The finished wall"],
  ["sign", "/item/signed/", "Signature"],
])("%s has no word beside the catalogue's and the job's", async (_name, place, title) => {
  await page.evaluate(`location.hash = "${place.startsWith("#") ? place : jobHash + place}"`);
  await page.locator("main h1", { hasText: title }).waitFor();
  await expectNothingElse();
});
