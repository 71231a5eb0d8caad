// The due list against the `semver` library, an independent implementation of SemVer 2.0.0.
import semver from "semver";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";
import { pointers } from "../support/reading.ts";

let service: TestService;
const NOW = new Date("2026-11-25T12:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const manager = () => service.as(service.firm.people.manager);

interface DueUnit {
  id: string;
  state: string;
  from: string | null;
  to: string;
  daysLeft: number;
}
interface DueSite {
  id: string;
  nextVisit: { startsAt: string } | null;
  units: DueUnit[];
  unclear: DueUnit[];
}

const due = async (query: string): Promise<DueSite[]> =>
  (await manager().get(`/api/v1/firmware/due?${query}`)).body.items;
const levelsDue = async (query: string) =>
  (await due(query)).flatMap((site) => site.units.map((unit) => unit.from)).sort();

describe("the due list", () => {
  test("holds exactly the units that the semver library calls older than the target", async () => {
    const parts = [0, 1, 2, 9, 10, 11, 255, 256, 4096];
    const levels = parts.flatMap((minor) => [
      `1.${minor}.0`,
      `1.10.${minor}`,
      `1.10.0-rc.${minor}`,
      `${minor}.0.0-beta`,
    ]);
    const fleet = await addFleet(service, "semver", levels);
    await postTarget(service, { modelId: fleet.modelId, level: "1.10.0" });
    const expected = levels.filter((level) => semver.lt(level, "1.10.0")).sort();
    expect(expected.length).toBeGreaterThan(10);
    expect(await levelsDue(`modelId=${fleet.modelId}&limit=100`)).toEqual(expected);
  });

  test("lists unknown and unorderable levels apart instead of guessing", async () => {
    const fleet = await addFleet(service, "semver", [null, "spring build", "3.0.0", "1.0.0"]);
    await postTarget(service, { modelId: fleet.modelId, level: "2.0.0" });
    const sites = await due(`modelId=${fleet.modelId}`);
    const states = sites.map(({ units, unclear }) => [
      units.map(({ state }) => state),
      unclear.map(({ state }) => state),
    ]);
    expect(states).toEqual([
      [[], ["unknown-level"]],
      [[], ["not-orderable"]],
      [["due"], []],
    ]);
  });

  test("counts the day of the deadline as in time and the day after as over", async () => {
    const fleet = await addFleet(service, "dotted", ["1.0"]);
    const { modelId } = fleet;
    const set = await postTarget(service, { modelId, level: "1.1" }, "2026-11-25");
    const [today] = await due(`modelId=${modelId}`);
    expect(today!.units[0]).toMatchObject({ state: "due", daysLeft: 0 });
    expect(await due(`modelId=${modelId}&overdue=true`)).toEqual([]);
    const moved = await manager()
      .put(`/api/v1/product-models/${modelId}/firmware-target`)
      .set("if-match", set.headers.etag as string)
      .send({ releaseId: set.body.releaseId, dueOn: "2026-11-24" });
    expect(moved.status).toBe(200);
    const [over] = await due(`modelId=${modelId}&overdue=true`);
    expect(over!.units[0]).toMatchObject({ state: "overdue", daysLeft: -1 });
    expect(await due(`modelId=${modelId}&overdue=false`)).toEqual([]);
    expect(await due(`modelId=${modelId}&dueBefore=2026-11-24`)).toEqual([]);
    expect(await due(`modelId=${modelId}&dueBefore=2026-11-25`)).toHaveLength(1);
  });

  test("is paged by site without losing or doubling one", async () => {
    const fleet = await addFleet(service, "dotted", ["1.0", "1.0", "2.0", "1.0", null, "1.0"]);
    await postTarget(service, { modelId: fleet.modelId, level: "1.2" });
    const seen: string[] = [];
    let path = `/api/v1/firmware/due?modelId=${fleet.modelId}&limit=2`;
    for (let pages = 0; path && pages < 5; pages += 1) {
      const reply = await manager().get(path);
      seen.push(...reply.body.items.map((site: DueSite) => site.id));
      path = /<([^>]+)>/.exec(reply.headers.link ?? "")?.[1] ?? "";
    }
    expect(seen).toEqual(fleet.siteIds.filter((_id, index) => index !== 2).sort());
  });

  test("is narrowed by severity and region", async () => {
    const fleet = await addFleet(service, "dotted", ["1.0"]);
    const { modelId } = fleet;
    await postTarget(service, { modelId, level: "1.2", severity: "routine" });
    expect(await due(`modelId=${modelId}&severity=routine&region=uk`)).toHaveLength(1);
    expect(await due(`modelId=${modelId}&severity=safety`)).toEqual([]);
    expect(await due(`modelId=${modelId}&region=us`)).toEqual([]);
    const bad = await manager().get("/api/v1/firmware/due?severity=urgent&overdue=perhaps");
    expect(pointers(bad)).toEqual(["/query/severity", "/query/overdue"]);
  });

  test("counts what it lists, and unclear units apart", async () => {
    const fleet = await addFleet(service, "dotted", ["1.0", "1.1", null, "2.0"]);
    const { modelId } = fleet;
    await postTarget(service, { modelId, level: "1.5", severity: "safety" }, "2026-11-20");
    const counts = await manager().get(`/api/v1/firmware/due/counts?modelId=${modelId}`);
    expect(counts.body).toEqual({
      sites: 2,
      units: 2,
      overdue: 2,
      unknown: 1,
      bySeverity: { safety: 2, important: 0, routine: 0 },
    });
  });

  test("leaves out units that stand nowhere, and archived sites", async () => {
    const fleet = await addFleet(service, "dotted", ["1.0", "1.0", "1.0"]);
    const { firmId } = service.firm;
    await inFirm(service.db, firmId, async (tx) => {
      await tx.unit.update({
        where: { firmId_id: { firmId, id: fleet.unitIds[0]! } },
        data: { state: "removed", siteId: null },
      });
      await tx.site.update({
        where: { firmId_id: { firmId, id: fleet.siteIds[1]! } },
        data: { archivedAt: NOW },
      });
    });
    await postTarget(service, { modelId: fleet.modelId, level: "1.2" });
    const sites = await due(`modelId=${fleet.modelId}`);
    expect(sites.map((site) => site.id)).toEqual([fleet.siteIds[2]]);
    const counts = await manager().get(`/api/v1/firmware/due/counts?modelId=${fleet.modelId}`);
    expect(counts.body).toMatchObject({ sites: 1, units: 1 });
  });

  test("is another firm's own affair", async () => {
    const fleet = await addFleet(service, "semver", ["1.0.0"]);
    await postTarget(service, { modelId: fleet.modelId, level: "1.1.0" });
    const other = await service.addFirm("birch");
    const theirs = service.as(other.people.manager);
    expect((await theirs.get("/api/v1/firmware/due")).body.items).toEqual([]);
    expect((await theirs.get("/api/v1/firmware/due/counts")).body).toMatchObject({ units: 0 });
    expect((await service.anonymous.get("/api/v1/firmware/due")).status).toBe(401);
  });
});
