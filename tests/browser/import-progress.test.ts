// The test is the worker of an import here, so that each step lasts until the page has shown it.
import type { Browser } from "playwright-core";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type FirmTransaction, inFirm } from "../../src/db/scope.ts";
import { startDryRun } from "../../src/features/imports/start-dry-run.ts";
import { beat, claimImport, finishImport } from "../../src/features/imports/store.ts";
import type { TestService } from "../support/app.ts";
import { signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { office, sendFile } from "../support/imports.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;

beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage());
});
afterAll(() => close());

test("what runs shows how far it is, and says so when it is over", async () => {
  const content = "Reference,Name\nW-1,Wim\n";
  const { id: importId } = await sendFile(office(service), "customers", content);
  const { db, firm } = service;
  const place = { db, dataFolder: ".data/tests", firmId: firm.firmId };
  const wish = { constants: {} };
  const lease = { importId, workerId: uuidv7() };
  const until = new Date(Date.now() + 600_000);
  const row = await startDryRun(place, importId, wish, new Date());
  const total = Number(row.bytes);
  const as = <Done>(step: (tx: FirmTransaction) => Promise<Done>) => inFirm(db, firm.firmId, step);
  expect(await as((tx) => claimImport(tx, lease, new Date(), until))).toBeDefined();
  const page = await signedInPage(browser, baseUrl, `/imports/${importId}`);
  for (const share of [0, 0.5, 1]) {
    const done = Math.floor(total * share);
    expect(await as((tx) => beat(tx, lease, { done, until }))).toBe(true);
    const percent = Math.floor((done / total) * 100);
    await page.getByText(`${percent} %`, { exact: true }).and(page.locator("#percent")).waitFor();
    expect(await page.getByRole("progressbar").getAttribute("value")).toBe(String(percent));
  }
  const end = { state: "failed", problem: "The file is not in utf-8." } as const;
  expect(await as((tx) => finishImport(tx, lease, end))).toBe(true);
  await page.getByRole("alert").filter({ hasText: end.problem }).waitFor();
  await page.context().close();
});
