// The day on the tablet's page: visits that are not downloaded yet are shown too, with why; and for
// a firm on US customary units readings begin in those.
import type { BrowserContext, Route } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { accessFaults } from "../support/tablet-axe.ts";
import { refusal, TabletStage } from "../support/tablet-stage.ts";

const PACKETS = "**/api/v1/tablet/packets/**";
let stage: TabletStage;
beforeAll(async () => {
  stage = await TabletStage.open();
});
afterAll(() => stage?.close());

const withPackets = (act: (route: Route) => Promise<void>) => (context: BrowserContext) =>
  context.route(PACKETS, act);

test("a visit not downloaded yet is listed, without signal too, and comes by itself", async () => {
  const { context, page, visit, to } = await begun(withPackets((route) => route.abort()));
  const card = page.locator("li.card", { hasText: "Not here yet" }).first();
  await card.getByText("Not downloaded yet; it comes by itself as soon as there is").waitFor();
  await card.getByText("Install two packs").waitFor();
  expect(await accessFaults(page, "day-not-downloaded")).toEqual([]);
  await context.setOffline(true);
  await page.reload();
  await card.waitFor();
  await to(`#/job/${visit.jobId}`, "Install two packs");
  await page.getByText("Not downloaded yet").waitFor();
  await to("#/", "Visits");
  await context.unroute(PACKETS);
  await context.setOffline(false);
  await page.locator(`a[href="#/job/${visit.jobId}"]`).waitFor({ timeout: 15_000 });
});

test.each([
  ["gone", 404, "There is no such job.", "The service says that this job is gone."],
  ["refused", 422, "The plan has no stages.", "The plan has no stages."],
])("of a visit whose packet was %s it is told why", async (name, status, detail, told) => {
  const refuse = withPackets((route) => route.fulfill(refusal(status, detail)));
  const { page } = await begun(refuse);
  await page.getByText(`It could not be downloaded. ${told}`).first().waitFor();
  expect(await accessFaults(page, `day-${name}`, ["dark"])).toEqual([]);
});

test("for a firm on US customary units a length begins in inches; millimetres stay", async () => {
  const { firmId } = stage.service.firm;
  await inFirm(stage.service.db, firmId, (tx) =>
    tx.firm.update({ where: { id: firmId }, data: { unitSystem: "us" } }),
  );
  const { page, hand, at, visit } = await begun();
  await at("/item/depth/", "Depth of the shallowest hole");
  await page.getByText("more than 50 mm (rounded: more than 1.9685 in)").waitFor();
  await hand.instrument(`DG-02-${visit.jobId.slice(-6).toUpperCase()}`);
  expect(await page.getByRole("radio", { name: "in", exact: true }).isChecked()).toBe(true);
  // 1 in is 25.4 mm exactly (NIST SP 811): 50 mm lie between 1.96 in and 1.97 in.
  for (const [typed, outcome] of [
    ["1.96", /✕\s+Not met:/],
    ["1.97", /✓\s+Met:/],
  ] as const) {
    await page.getByLabel("Reading").fill(typed);
    await page.locator(".foretold", { hasText: outcome }).waitFor();
  }
  await page.getByRole("radio", { name: "mm", exact: true }).check();
  await page.locator(".foretold", { hasText: /✕\s+Not met:/ }).waitFor();
  await page.getByLabel("Reading").fill("62");
  await hand.tap("Keep");
  await page.getByText("Kept. Met").waitFor();
});

async function begun(before?: Parameters<TabletStage["tablet"]>[0]) {
  const tablet = await stage.tablet(before);
  return { ...tablet, to: tablet.to.bind(tablet), at: tablet.at.bind(tablet) };
}
