// What the office changed meanwhile, stage times, and the addresses of views.
import { describe, expect, test } from "vitest";
import { packetChanges } from "../../src/tablet/job/packet-changes.ts";
import {
  IDLE_AFTER_MS,
  type StageClock,
  stageTime,
  worked,
} from "../../src/tablet/job/stage-time.ts";
import { addressOf, type Route, readRoute } from "../../src/tablet/views/route.ts";
import { answerAt, PACKS, packetOf } from "./support/job-packet.ts";

describe("a packet that changed on the server", () => {
  const shown = packetOf();
  test("is taken silently where only answers, photos or the version of the job are new", () => {
    const answer = { ...answerAt(1, "holes", { count: 4 }).answer, id: "x", order: 1 };
    const job = { ...shown.job, version: 9 };
    const latest = packetOf({ answers: [answer], lastOrder: 1, photosHeld: ["a"], job });
    expect(packetChanges(shown, latest)).toEqual([]);
  });

  test.each([
    ["the job", { job: { ...shown.job, state: "cancelled" as const } }, "cancelled"],
    ["the plan", { plan: { ...shown.plan, sha256: "1".repeat(64), number: 2 } }, "version 2"],
    ["a unit", { units: shown.units.slice(0, 1) }, "HN0000002 was taken off"],
    ["the site", { site: { ...shown.site, addressLine: "5 Kiln Lane" } }, "site's details"],
    ["the instruments", { instruments: [] }, "instruments were changed"],
    ["a concession", { concessions: [{ id: "c", itemId: "wall" }] }, '"What the wall is" was'],
  ])("is told where %s changed", (_what, change, words) => {
    const told = packetChanges(shown, packetOf(change));
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(words);
  });
});

test("a message of the office is told in its words, one of a tablet is only there", () => {
  const message = { id: "m", number: 1, text: "Ring first.", personName: "Ida Rook" };
  const at = { writtenAt: "2026-03-02T08:00:00Z" };
  const shown = packetOf();
  const from = (fromTablet: boolean) =>
    packetChanges(shown, packetOf({ messages: [{ ...message, ...at, fromTablet }] }));
  expect(from(false)).toEqual(["Ida Rook writes: Ring first."]);
  expect(from(true)).toEqual([]);
});

describe("the time a stage took", () => {
  const at = (ms: number): string => new Date(Date.UTC(2026, 2, 2, 9) + ms).toISOString();
  const clockAfter = (...moments: number[]): StageClock | undefined =>
    moments.reduce<StageClock | undefined>((clock, ms) => worked(clock, at(ms)), undefined);

  test.each([
    [[0], 0],
    [[0, 60_000, 90_000], 90_000],
    [[0, IDLE_AFTER_MS], IDLE_AFTER_MS],
    [[0, IDLE_AFTER_MS + 1], 0],
    [[0, 60_000, 60_000 + IDLE_AFTER_MS + 1, 500_000], 60_000 + 139_999],
  ])("with signs of work at %j is %d ms", (moments, activeMs) => {
    expect(clockAfter(...moments)?.activeMs).toBe(activeMs);
  });

  test("is not touched by a clock that is set back, and never more than a day", () => {
    expect(clockAfter(60_000, 0)).toEqual(clockAfter(60_000));
    const long = { startedAt: at(0), lastAt: at(1), activeMs: 200_000_000 };
    expect(stageTime("fix", long).activeMs).toBe(86_400_000);
  });
});

test.each<Route>([
  { name: "day" },
  { name: "messages", jobId: "j" },
  { name: "outbox" },
  { name: "next", jobId: "j" },
  { name: "close-out", jobId: "j" },
  { name: "item", jobId: "j", itemId: "wall", subject: "" },
  { name: "item", jobId: "j", itemId: "serial", subject: `${PACKS[0]}/x` },
])("the address of %j leads back to it", (route) => {
  expect(readRoute(addressOf(route))).toEqual(route);
});

test.each(["", "#", "#/nowhere", "#/job", "#/job/%E0%A4%A"])("%j leads to the day", (hash) => {
  expect(readRoute(hash)).toEqual({ name: "day" });
});
