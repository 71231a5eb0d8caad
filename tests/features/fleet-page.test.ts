import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { recordFirmwareReading } from "../../src/features/firmware/level-store.ts";
import { adoptionSeries, WEEKS } from "../../src/features/fleet/adoption.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";

let service: TestService;
let modelId: string;

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T12:00:00Z") });
  const fleet = await addFleet(service, "semver", ["2.3.0", "2.3.0", "2.4.0", null]);
  modelId = fleet.modelId;
  await postTarget(service, { modelId, level: "2.4.0", severity: "safety" }, "2026-11-10");
  const readings = [
    ["2026-03-01T09:00:00Z", "2.3.0"],
    ["2026-11-20T09:00:00Z", "2.4.0"],
  ] as const;
  for (const [readAt, level] of readings) {
    await inFirm(service.db, service.firm.firmId, (tx) =>
      recordFirmwareReading(tx, {
        ...{ unitId: fleet.unitIds[2]!, level, source: "api", readAt: new Date(readAt) },
      }),
    );
  }
});
afterAll(async () => service.stop());

const page = async (role: "manager" | "installer", path = "/fleet") =>
  service.as(service.firm.people[role]).get(path).set("accept", "text/html");

test("exposure counts units and sites by severity and day, and each number is a link", async () => {
  const { text, status } = await page("manager");
  expect(status).toBe(200);
  expect(text).toContain("2 at 2 sites");
  const [, link = ""] = /<a href="(\/firmware\?severity[^"]+)"/.exec(text) ?? [];
  expect(link.replaceAll("&amp;", "&").replaceAll("&#x3D;", "=")).toBe(
    "/firmware?severity=safety&dueFrom=2026-10-26&dueBefore=2026-11-25",
  );
});

test("levels are told by model, those nobody has read apart", async () => {
  const { text } = await page("manager");
  expect(text).toMatch(/2\.4\.0: 1, 2\.3\.0: 2 <span class="tag warn">▲<\/span>, unknown: 1/);
});

test("a unit is counted from the week of its first reading at or above a release", async () => {
  const { text } = await page("manager", `/fleet?model=${modelId}`);
  const cells = [...text.matchAll(/<tr><td>[^<]+<\/td><td class="number">(\d+)<\/td>/g)];
  const counts = cells.slice(0, WEEKS + 1).map(([, count]) => Number(count));
  expect(counts).toHaveLength(WEEKS + 1);
  expect(counts.slice(-3)).toEqual([0, 0, 1]);
});

test("what was reached before the first week counts from the start, and never falls", () => {
  const [series] = adoptionSeries([
    { level: "2.4.0", key: 1n, week: 0, units: 3 },
    { level: "2.4.0", key: 1n, week: WEEKS, units: 2 },
  ]);
  expect(series?.values.at(0)).toBe(3);
  expect(series?.values.at(-2)).toBe(3);
  expect(series?.values.at(-1)).toBe(5);
});

test("installers do not see it", async () => {
  expect((await page("installer")).status).toBe(403);
});
