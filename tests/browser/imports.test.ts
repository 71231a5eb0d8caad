import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "../support/app.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { openStage } from "../support/browser-stage.ts";
import { office, sendFile, tryFile } from "../support/imports.ts";

let service: TestService;
let browser: Browser;
let baseUrl: string;
let close: () => Promise<void>;

beforeAll(async () => {
  ({ service, browser, baseUrl, close } = await openStage());
});
afterAll(() => close());

const open = (options = {}) => signedInPage(browser, baseUrl, "/imports", options);
const customers = () =>
  inFirm(service.db, service.firm.firmId, (tx) =>
    tx.customer.count({ where: { firmId: tx.firmId } }),
  );

async function send(page: Page, kind: string, content: string | Buffer): Promise<void> {
  await page.locator("#kind").selectOption({ label: kind });
  const buffer = Buffer.isBuffer(content) ? content : Buffer.from(content);
  await page.locator("#file").setInputFiles({ name: "rows.csv", mimeType: "text/csv", buffer });
  await page.getByRole("button", { name: "Send the file" }).click();
}

const MIXED = "Ref;Who;Mail\r\nB-1;Ada Oakes;ada@x.example\r\nB-2;Bo Li;nobody\r\nB-3;;\r\n";

describe("a file with bad rows", () => {
  test("has its columns told, is tried, and only its good rows come in", async () => {
    const page = await open();
    const faults = consoleFaults(page);
    const before = await customers();
    await page.getByText("No file has been brought in.").waitFor();
    await send(page, "Customers", MIXED);
    await page.getByRole("heading", { name: "Columns" }).waitFor();
    for (const [column, field] of [
      ["Ref", "Reference"],
      ["Who", "Name"],
      ["Mail", "E-mail address"],
    ] as const) {
      await page.getByLabel(column, { exact: true }).selectOption({ label: field });
    }
    await page.getByRole("button", { name: "Try the file" }).click();
    await page.getByRole("heading", { name: "Bad rows" }).waitFor();
    const rows = page.locator("section", { hasText: "Bad rows" }).locator("tbody tr");
    // The heading can stand before the rest of its page has come.
    await rows.nth(1).waitFor();
    expect(await rows.allTextContents()).toEqual([
      expect.stringMatching(/^3Mail: Invalid email/),
      expect.stringMatching(/^4name: is missing/),
    ]);
    expect(await customers()).toBe(before);
    expect(await accessibilityFaults(page)).toEqual([]);
    const rejects = page.waitForEvent("download");
    await page.getByRole("link", { name: "Take the bad rows away" }).click();
    expect((await rejects).suggestedFilename()).toBe("rejects-customers.csv");
    await page.getByRole("button", { name: "Import the 1 good row alone" }).click();
    await page.getByText("What came in").waitFor();
    expect(await customers()).toBe(before + 1);
    await page.getByRole("link", { name: "To the list: Customers" }).click();
    await page.getByText("Ada Oakes").waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test("none of which is good brings nothing in, and can be given up", async () => {
    const page = await open();
    await send(page, "Customers", "Reference,Name,E-mail\nC-1,Ida,nobody\nC-2,,\n");
    await page.getByRole("button", { name: "Try the file" }).click();
    await page.getByText("There is nothing to import").waitFor();
    expect(await page.getByRole("button", { name: /^Import/ }).count()).toBe(0);
    await page.getByRole("button", { name: "Give this import up" }).click();
    await page.getByText("given up").waitFor();
    await page.context().close();
  });
});

test("a column that new rows need and that is nowhere is asked for, with the reason", async () => {
  const page = await open();
  await send(page, "Sites", "customer,addressLine\nB-1,4 Kiln Lane\n");
  await page.getByRole("heading", { name: "For every row" }).waitFor();
  await page.getByLabel("Country code").fill("GB");
  await page.getByRole("button", { name: "Try the file" }).click();
  await page.getByRole("heading", { name: "Bad rows" }).waitFor();
  expect(await page.locator("main").textContent()).toContain("is missing");
  expect(await page.getByLabel("Country code").inputValue()).toBe("GB");
  await page.context().close();
});

test("thousands of rows are waited for, and come in", async () => {
  const page = await open();
  const before = await customers();
  const rows = Array.from({ length: 20_000 }, (_, at) => `L-${at},Person ${at}`);
  await send(page, "Customers", `Reference,Name\n${rows.join("\n")}\n`);
  await page.getByRole("button", { name: "Try the file" }).click();
  await page.getByRole("button", { name: "Import 20,000 rows" }).click();
  await page.getByText("What came in").waitFor();
  expect(await customers()).toBe(before + 20_000);
  await page.context().close();
});

test.each([
  ["an empty file", Buffer.alloc(0), "The file is empty."],
  [
    "a picture",
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13, 0x0a, 0xff, 0xd8]),
    "The row with column names holds the character U+0000. Save the table as CSV and send that.",
  ],
])("%s is refused where it was chosen, with the reason", async (_what, bytes, reason) => {
  const page = await open();
  await send(page, "Customers", bytes);
  const told = page.locator("#file-problem");
  await told.filter({ hasText: "▲" }).waitFor();
  expect(await told.textContent()).toContain(reason);
  await page.context().close();
});

test("without a script the form sends the file, and a link looks again", async () => {
  const page = await open({ javaScriptEnabled: false });
  await send(page, "Customers", "Reference,Name\nN-1,Nils\n");
  await page.getByRole("button", { name: "Try the file" }).click();
  for (let looks = 0; looks < 40; looks += 1) {
    const again = page.getByRole("link", { name: "Look again" });
    if ((await again.count()) === 0) break;
    await again.click();
  }
  await page.getByRole("button", { name: "Import 1 row" }).waitFor();
  await page.context().close();
});

test("an example has every column of its kind and passes as it is", async () => {
  const page = await open();
  const reply = await page.request.get(`${baseUrl}/imports/examples/customers`);
  expect(reply.headers()["content-disposition"]).toContain('filename="customers.csv"');
  await send(page, "Customers", await reply.body());
  await page.getByRole("button", { name: "Try the file" }).click();
  await page.getByRole("button", { name: "Import 1 row" }).waitFor();
  await page.context().close();
});

test.each([
  ["light", 1280],
  ["dark", 320],
] as const)("pages are accessible and fit, %s at %d px", async (colorScheme, width) => {
  const desk = office(service);
  const uploaded = await sendFile(desk, "customers", MIXED);
  const checked = await tryFile(desk, "customers", "reference,name,email\nP-1,Pia,nobody\n");
  expect([uploaded.state, checked.state]).toEqual(["uploaded", "checked"]);
  const page = await open({ colorScheme, viewport: { width, height: 800 } });
  for (const [path, heading] of [
    ["/imports", "Imports"],
    [`/imports/${uploaded.id}`, "Columns"],
    [`/imports/${checked.id}`, "Bad rows"],
  ] as const) {
    await page.goto(`${baseUrl}${path}`);
    await page.getByRole("heading", { name: heading }).first().waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
  }
  await page.context().close();
});

test("a narrow list is still sorted by its heads, within reach of a finger", async () => {
  const desk = office(service);
  for (const fileName of ["zinnia.csv", "aster.csv"]) {
    await desk.post("/api/v1/imports").send({ kind: "sites", fileName });
  }
  const page = await open({ viewport: { width: 320, height: 800 } });
  const head = page.getByRole("link", { name: "File", exact: true });
  const box = await head.boundingBox();
  // WCAG 2.2, 2.5.8: 24 by 24 CSS pixels at least.
  expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(24);
  await head.click();
  await page.waitForURL(`${baseUrl}/imports?sort=file`);
  const names = await page.locator("table.list td:first-child").allTextContents();
  expect([names[0], names.at(-1)]).toEqual(["aster.csv", "zinnia.csv"]);
  await page.context().close();
});
