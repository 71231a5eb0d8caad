import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyLedgers } from "../../src/features/ledger/verify-ledgers.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { accessibilityFaults, consoleFaults, signedInPage } from "../support/browser-pages.ts";
import { ledgerOf } from "../support/reading.ts";
import { fieldsOf, registryDesk } from "../support/registry-desk.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
let service: TestService;
let desk: Awaited<ReturnType<typeof registryDesk>>;
let browser: Browser;
let baseUrl: string;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  desk = await registryDesk(service);
  baseUrl = await service.app.listen({ port: 0 });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service.stop();
});

const open = async (fields: object) => {
  const body = { kind: "work", title: "Lid left open", ...fields };
  const reply = await desk.as("office").post("/api/v1/nonconformances").send(body);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body as { id: string; reference: string; version: number };
};
const titles = async (query: string) =>
  (await desk.as("auditor").get(`/api/v1/nonconformances?${query}`)).body.items.map(
    (row: { title: string }) => row.title,
  );

describe("the follow-up of a nonconformance", () => {
  test("is in its job's ledger step by step, by names of what changed, not by words", async () => {
    const { jobId } = desk;
    const { id, reference } = await open({ jobId });
    const path = `/nonconformances/${id}`;
    const first = fieldsOf((await desk.page(path, "manager")).text);
    const early = await desk.post(path, { ...first, state: "closed" }, "manager");
    expect(early.status).toBe(422);
    expect(early.text).toContain("Say what the cause was before it is closed.");
    const steps: Record<string, string>[] = [
      { containment: "Ida locked the cellar" },
      { cause: "Haste", correction: "Two people close up", state: "contained" },
      { effectCheck: "Ten lids seen shut", state: "closed" },
      {},
    ];
    for (const step of steps) {
      const fields = fieldsOf((await desk.page(path, "manager")).text);
      const sent = await desk.post(path, { ...fields, ...step }, "manager");
      expect(sent.status, sent.text).toBe(303);
    }
    const stale = await desk.post(path, { ...first, title: "Other" }, "manager");
    expect(stale.status).toBe(422);
    const entries = (await ledgerOf(service, jobId)).filter(({ kind }) =>
      kind.startsWith("nonconformance."),
    );
    expect(entries.map(({ body }) => body)).toMatchObject([
      { kind: "work", nonconformanceId: id, reference },
      { changed: ["containment"], state: "open" },
      { changed: ["cause", "correction", "state"], state: "contained" },
      { changed: ["effectCheck", "state"], state: "closed" },
    ]);
    expect(JSON.stringify(entries)).not.toContain("Ida");
    const told: unknown[] = [];
    await verifyLedgers(service.db, service.firm.firmId, (fault) => told.push(fault));
    expect(told).toEqual([]);
  });

  test("is overdue from the day after its day on, in the list and on the first page", async () => {
    await open({ title: "Late one", dueOn: "2026-11-24" });
    await open({ title: "Due today", dueOn: "2026-11-25" });
    await open({ title: "Next month", dueOn: "2026-12-25" });
    expect(await titles("overdue=true")).toEqual(["Late one"]);
    expect(await titles("overdue=true&state=closed")).toEqual([]);
    const list = await desk.page("/nonconformances?overdue=true", "office");
    expect(list.text).toContain("✕ overdue");
    expect(list.text).toContain("next: keep it from doing more harm");
    expect(list.text).not.toContain("Due today");
    for (const role of ["manager", "office"] as const) {
      const { text } = await desk.page("/", role);
      expect(text).toMatch(/Late one<\/a> <span class="tag bad">✕ overdue since 24 Nov 2026/);
      expect(text).toMatch(/Due today<\/a> <span class="tag warn">▲ due 25 Nov 2026/);
      expect(text).not.toContain("Next month");
    }
    expect((await desk.page("/", "installer")).text).not.toContain("Late one");
  });

  test.each([
    ["light", 1024],
    ["dark", 320],
  ] as const)("has pages that are accessible and fit, %s at %d px", async (colorScheme, width) => {
    const { id } = await open({ title: "Seen", dueOn: "2026-11-01" });
    const page = await signedInPage(browser, baseUrl, "/", {
      ...{ colorScheme, viewport: { width, height: 800 } },
    });
    const faults = consoleFaults(page);
    for (const path of ["/", "/nonconformances", `/nonconformances/${id}`]) {
      await page.goto(`${baseUrl}${path}`);
      expect(await accessibilityFaults(page), path).toEqual([]);
      const wide = await page.evaluate("document.documentElement.scrollWidth");
      expect(wide, path).toBeLessThanOrEqual(width);
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
