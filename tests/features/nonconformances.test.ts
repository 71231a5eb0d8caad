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

const STEPS: readonly Record<string, string>[] = [
  { containment: "Ida locked the cellar" },
  { cause: "Haste" },
  { correction: "Two people close up", effectDueOn: "2026-12-09", effectById: "" },
  {},
];

describe("the follow-up of a nonconformance", () => {
  test("is in its job's ledger step by step, by names of what changed, not by words", async () => {
    const { jobId } = desk;
    const { id, reference } = await open({ jobId });
    const path = `/nonconformances/${id}`;
    const versionOf = async () => fieldsOf((await desk.page(path, "manager")).text).version ?? "";
    const early = await desk
      .as("manager")
      .patch(`/api/v1${path}`)
      .set({ "if-match": '"1"' })
      .send({ state: "closed" });
    expect([early.status, early.body.errors[0].detail]).toEqual([
      422,
      "Say what the cause was before it is closed.",
    ]);
    const version = await versionOf();
    for (const step of STEPS) {
      const sent = await desk.post(path, { version: await versionOf(), ...step }, "manager");
      expect(sent.status, sent.text).toBe(303);
    }
    const stale = await desk.post(path, { version, title: "Other" }, "manager");
    expect(stale.status).toBe(422);
    const seen = { verdict: "effective", note: "Ten lids seen shut by Ida" };
    const judged = await desk.post(`${path}/effect-checks`, seen, "manager");
    expect(judged.status, judged.text).toBe(303);
    const entries = (await ledgerOf(service, jobId)).filter(({ kind }) =>
      kind.startsWith("nonconformance."),
    );
    expect(entries.map(({ body }) => body)).toMatchObject([
      { kind: "work", nonconformanceId: id, reference },
      { changed: ["containment", "state"], state: "contained" },
      { changed: ["cause"], state: "contained" },
      { changed: ["correction", "effectDueOn"], state: "contained" },
      { nonconformanceId: id, reference, state: "closed", verdict: "effective" },
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

describe("a look at whether the correction works", () => {
  const yes = { verdict: "effective", note: "Seen" };
  const judge = (path: string, body: object, role: "manager" | "office" = "manager") =>
    desk.as(role).post(`${path}/effect-checks`).send(body);
  const patch = async (path: string, body: object) => {
    const { version } = (await desk.as("manager").get(path)).body;
    const match = { "if-match": `"${version}"` };
    return desk.as("manager").patch(path).set(match).send(body);
  };
  const refusal = async (sent: PromiseLike<{ status: number; body: { errors: unknown[] } }>) => {
    const { status, body } = await sent;
    return [status, (body.errors[0] as { detail: string }).detail];
  };

  test("waits for cause and correction, and is overdue on the manager's first page", async () => {
    const { id } = await open({ title: "Loose bar", effectDueOn: "2026-11-24" });
    const path = `/api/v1/nonconformances/${id}`;
    const noCause = "Say what the cause was before its correction is judged.";
    expect(await refusal(judge(path, yes))).toEqual([422, noCause]);
    await patch(path, { cause: "Tightened too soon" });
    const noCorrection = "Say what was changed before its effect is judged.";
    expect(await refusal(judge(path, yes))).toEqual([422, noCorrection]);
    expect(await titles("effectOverdue=true")).toEqual(["Loose bar"]);
    const home = (await desk.page("/", "manager")).text;
    expect(home).toMatch(
      /Loose bar<\/a> <span class="tag bad">✕ effect check overdue since 24 Nov/,
    );
    await patch(path, { correction: "The bar is an item of its own" });
    expect((await judge(path, yes, "office")).status).toBe(403);
    expect((await judge(path, yes)).status).toBe(201);
    expect(await titles("effectOverdue=true")).toEqual([]);
  });

  test("opens it again when the effect is not there, and keeps what was tried", async () => {
    const { id } = await open({ title: "Loose clamp", effectDueOn: "2026-11-24" });
    const path = `/api/v1/nonconformances/${id}`;
    await patch(path, { cause: "Haste", correction: "A note in the folder" });
    const no = await judge(path, { verdict: "not-effective", note: "One of four again" });
    expect([no.status, no.body.correction]).toEqual([201, "A note in the folder"]);
    expect((await desk.as("auditor").get(path)).body).toMatchObject({
      ...{ state: "open", cause: "Haste", correction: null, effectCheck: null },
      ...{ effectDueOn: null, closedAt: null },
    });
    await patch(path, { correction: "An item of its own" });
    expect((await judge(path, yes)).status).toBe(201);
    expect((await desk.as("auditor").get(path)).body).toMatchObject({
      ...{ state: "closed", effectCheck: "Seen" },
    });
    const kept = (await desk.as("auditor").get(`${path}/effect-checks`)).body.items;
    expect(kept.map((one: Record<string, string>) => [one.verdict, one.correction])).toEqual([
      ["effective", "An item of its own"],
      ["not-effective", "A note in the folder"],
    ]);
    const page = await desk.page(`/nonconformances/${id}`, "auditor");
    expect(page.text).toContain("checked: A note in the folder (cause: Haste)");
  });
});
