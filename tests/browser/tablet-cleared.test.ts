// The last resorts in a real browser: the outbox as a file, a store that the browser cleared, and
// the file bringing back what was lost.
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { clearStore } from "../support/probe-page.ts";
import { accessFaults } from "../support/tablet-axe.ts";
import { cameraPicture, openTablet } from "../support/tablet-hand.ts";
import { TabletAtWork as Tablet, type TabletAtWork, TabletStage } from "../support/tablet-stage.ts";

let stage: TabletStage;
beforeAll(async () => {
  stage = await TabletStage.open();
});
afterAll(() => stage?.close());

const answersOf = async ({ visit }: TabletAtWork): Promise<{ id: string; itemId: string }[]> => {
  const office = stage.service.as(stage.service.firm.people.office);
  return (await office.get(`/api/v1/jobs/${visit.jobId}/answers?limit=100`)).body.items;
};

async function savedFile(page: Page): Promise<{ name: string; lines: Line[]; text: string }> {
  const saving = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the outbox to a file" }).click();
  const download = await saving;
  const text = await readFile(await download.path(), "utf8");
  const lines = text.trimEnd().split("\n");
  return { name: download.suggestedFilename(), lines: lines.map((one) => JSON.parse(one)), text };
}

interface Line {
  op?: TabletOp;
  photo?: { sha256: string; base64: string };
}

async function restoreFrom(page: Page, text: string): Promise<void> {
  const file = { name: "outbox.jsonl", mimeType: "application/jsonl", buffer: Buffer.from(text) };
  await page.locator("input[type=file]").setInputFiles(file);
}

/** One answer that the server has; then without signal a snag and a photo. */
async function busyTablet(): Promise<TabletAtWork> {
  const tablet = await stage.tablet();
  await tablet.at("", "Everyone briefed");
  await tablet.hand.keepAndGoOn("Done");
  await tablet.page.getByRole("link", { name: "All sent" }).waitFor();
  await tablet.context.setOffline(true);
  await tablet.snag("Lid missing");
  await tablet.at("/item/picture/", "The finished wall");
  await tablet.hand.photo(await cameraPicture());
  await tablet.hand.tap("Keep");
  await tablet.page.getByText("Kept. Met").waitFor();
  await tablet.to("#/outbox", "Outbox");
  await tablet.page.getByText("If sending is not possible").click();
  return tablet;
}

/** The browser cleared everything but cookies, so the page comes from the service again. */
async function openedAgain({ context, page, visit }: TabletAtWork): Promise<TabletAtWork> {
  await clearStore(page);
  await page.close();
  await context.setOffline(false);
  return new Tablet(context, await openTablet(context, stage.baseUrl), visit);
}

test("the outbox is offered as a file with every unsent entry and its photo", async () => {
  const { page } = await busyTablet();
  const { name, lines } = await savedFile(page);
  expect(name).toMatch(/^outbox-\d{4}-\d\d-\d\d\.jsonl$/);
  const ops = lines.flatMap(({ op }) => op ?? []);
  expect(ops.map(({ deviceSeq, payload }) => [deviceSeq, payload.kind])).toEqual([
    [2, "snag"],
    [3, "answer"],
  ]);
  const [photo, ...others] = lines.flatMap((line) => line.photo ?? []);
  expect([photo?.sha256, others]).toEqual([ops[1]?.photoSha256[0], []]);
  const bytes = Buffer.from(photo!.base64, "base64");
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  expect(Buffer.from(digest).toString("hex")).toBe(photo?.sha256);
});

test("a cleared store is told with what is gone, and the file brings it back", async () => {
  const before = await busyTablet();
  const { text } = await savedFile(before.page);
  const tablet = await openedAgain(before);
  const gone = "The browser cleared this tablet's store: 2 entries not sent before are gone";
  await tablet.notice(gone).waitFor();
  expect(await accessFaults(tablet.page, "banner-cleared", ["light"])).toEqual([]);
  await tablet.to("#/outbox", "Outbox");
  await tablet.page.getByText("If sending is not possible").click();
  await restoreFrom(tablet.page, text);
  await tablet.notice("2 entries were new and taken in.").waitFor();
  await tablet.notice(gone).waitFor({ state: "detached" });
  await tablet.page.getByText("2 kept on this tablet, 0 waiting.").waitFor({ timeout: 15_000 });
  expect((await answersOf(tablet)).map(({ itemId }) => itemId).toSorted()).toEqual([
    "briefed",
    "picture",
  ]);
  await restoreFrom(tablet.page, text);
  await tablet.notice("0 entries were new and taken in.").waitFor();
});
