// The public page that checks an evidence bag wholly inside the browser: without a session, with
// the network off, and with nothing leaving.
import { cpSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults } from "../support/browser-pages.ts";
import { chanceOf, SEED } from "../support/chance.ts";
import { folderAsZip } from "../support/check-bags.ts";
import {
  addProvenJob,
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { EDITS, resign, strangersKey, swapLedgerLines } from "../support/evidence-tampering.ts";

const ROUNDS = 30;
let stage: EvidenceStage;
let browser: Browser;
let baseUrl: string;
let bag: Buffer;
let folder: string;

beforeAll(async () => {
  stage = await startEvidence(() => new Date());
  const job = await addProvenJob(stage.service);
  bag = await downloadBag(stage.service, job.jobId);
  folder = await unpack(bag, stage.folder);
  const address = await stage.service.app.listen({ port: 0, host: "127.0.0.1" });
  baseUrl = address.replace("127.0.0.1", "localhost");
  browser = await launchBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await stage.stop();
});

const headOf = (): string => readFileSync(join(folder, "data/ledger/head.txt"), "utf8").trim();

/** The page without anybody signed in, its program loaded, and from then on no network. */
async function checkPage(path = "/check", locale = "en-GB"): Promise<Page> {
  const context = await browser.newContext({ locale, viewport: { width: 1100, height: 900 } });
  const page = await context.newPage();
  const loaded = page.waitForResponse((reply) => reply.url().includes("/check/program/"));
  await page.goto(`${baseUrl}${path}`);
  await loaded;
  await context.setOffline(true);
  return page;
}

async function choose(page: Page, buffer: Buffer, name = "EV.zip"): Promise<string> {
  await page.locator("#verdict").evaluate((verdict: { hidden: boolean }) => {
    verdict.hidden = true;
  });
  await page.locator("#bag").setInputFiles({ name, mimeType: "application/zip", buffer });
  await page.locator("#verdict").waitFor();
  return (await page.locator("#verdict").textContent()) ?? "";
}

const rowOf = (page: Page, step: string) => page.locator(`[data-step="${step}"]`).textContent();

describe("a whole bag", () => {
  test("is found whole without session or network, and nothing is sent", async () => {
    const page = await checkPage(`/check?head=${headOf()}`);
    const faults = consoleFaults(page);
    const sent: string[] = [];
    page.context().on("request", (request) => sent.push(request.url()));
    expect(await choose(page, bag)).toBe("✓ The bag is whole.");
    expect(await rowOf(page, "files")).toContain("✓ holds");
    expect(await rowOf(page, "signature")).toMatch(/Signed with the key [0-9a-f]{64}\./);
    expect(await rowOf(page, "stamp")).toContain("none was to be given");
    expect(await rowOf(page, "record")).toMatch(/Ledger of \d+ entries unbroken; all \d+ verdicts/);
    const entries = readFileSync(join(folder, "data/ledger/entries.jsonl"), "utf8").split("\n");
    const last = entries.length - 1;
    expect(await rowOf(page, "paper")).toContain(`that of entry ${last} of ${last} in data/ledger`);
    expect([sent, faults]).toEqual([[], []]);
    await page.context().close();
  });

  test("is found whole in Spanish, by keyboard, with the firm's certificates", async () => {
    const page = await checkPage("/check", "es-ES");
    await page.locator("#bag").focus();
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    const trusted = Buffer.from(await certificatesOf(stage.service));
    const pem = { name: "firm.pem", mimeType: "application/x-pem-file", buffer: trusted };
    await page.getByLabel("Los certificados de la empresa (PEM)").setInputFiles(pem);
    await page.context().setOffline(false);
    let requests = 0;
    stage.service.app.server.on("request", () => {
      requests += 1;
    });
    expect(await choose(page, bag)).toBe("✓ El paquete está íntegro.");
    expect(await rowOf(page, "signature")).toContain("Es uno de los certificados que indicó.");
    expect(requests).toBe(0);
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.context().close();
  });

  test("is not that of a paper with another number", async () => {
    const page = await checkPage(`/check?head=${"0".repeat(64)}`);
    expect(await choose(page, bag)).toContain("it is not the one of this paper");
    expect(await rowOf(page, "paper")).toContain("▲ does not hold");
    await page.context().close();
  });
});

/** Each file of the bag that the page names as wrong. */
const named = (page: Page): Promise<string[]> =>
  page.locator("#faults code").allInnerTexts() as Promise<string[]>;

test(`tampering is all noticed, with the file named (${ROUNDS} edits, seed ${SEED})`, async () => {
  const page = await checkPage();
  await choosePem(page);
  const chance = chanceOf(SEED);
  const names = Object.keys(EDITS);
  const overlooked: string[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const name = names[round % names.length] ?? "";
    const copy = `${folder}-${round}`;
    cpSync(folder, copy, { recursive: true });
    await EDITS[name]?.(copy, chance);
    const told = await choose(page, await folderAsZip(copy));
    const files = await named(page);
    if (!told.includes("not whole") || files.length === 0) overlooked.push(`${round} ${name}`);
    rmSync(copy, { recursive: true });
  }
  process.stdout.write(`edits in the browser: ${ROUNDS}, ${overlooked.length} overlooked\n`);
  expect(overlooked).toEqual([]);
  await page.context().close();
}, 300_000);

async function choosePem(page: Page): Promise<void> {
  await page.locator("summary").filter({ hasText: "Certificates" }).click();
  const buffer = Buffer.from(await certificatesOf(stage.service));
  const pem = { name: "firm.pem", mimeType: "application/x-pem-file", buffer };
  await page.getByLabel("The firm's certificates (PEM)").setInputFiles(pem);
}

test("a ledger in another order shows and is named, though all was signed anew", async () => {
  const copy = `${folder}-swapped`;
  cpSync(folder, copy, { recursive: true });
  swapLedgerLines(copy, chanceOf(7));
  await resign(copy, await strangersKey());
  const page = await checkPage();
  expect(await choose(page, await folderAsZip(copy))).toContain("not whole");
  expect((await named(page))[0]).toBe("data/ledger/entries.jsonl");
  expect(await rowOf(page, "signature")).toContain("✓ holds");
  expect(await rowOf(page, "record")).toContain("▲ does not hold");
  await page.context().close();
});

test("the program comes under a policy by which it could reach nobody", async () => {
  const shown = await stage.service.anonymous.get("/check");
  const address = /data-worker="([^"]+)"/.exec(shown.text)?.[1] ?? "";
  const program = await stage.service.anonymous.get(address);
  expect([shown.status, program.status]).toEqual([200, 200]);
  expect(program.headers["content-security-policy"]).toBe("default-src 'none'; script-src 'self'");
  expect(shown.headers["content-security-policy"]).toContain("default-src 'self'");
  expect((await stage.service.anonymous.get("/check/program/worker-0.js")).status).toBe(404);
});

test.each<[string, (whole: Buffer) => Buffer, string]>([
  ["cut off", (whole) => whole.subarray(0, -1), "no whole ZIP file"],
  ["empty", () => Buffer.alloc(0), "no whole ZIP file"],
  ["something else", () => Buffer.from("%PDF-1.7 nothing of a bag"), "no whole ZIP file"],
])("a file that is %s is told from a bag", async (_what, change, words) => {
  const page = await checkPage();
  expect(await choose(page, change(bag))).toContain(words);
  await page.context().close();
});
