// The due list has two ways to its page; both must find the same.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { levelKey } from "../../src/domain/firmware/level-key.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";
import { rowsIn } from "../support/work-rows.ts";

let service: TestService;
const NOW = new Date("2026-11-25T12:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const due = async (query: string): Promise<{ id: string; units: object[]; nextVisit: object }[]> =>
  (await service.as(service.firm.people.manager).get(`/api/v1/firmware/due?${query}`)).body.items;

/** Many units of the model at the site, all at one level. */
async function crowd(modelId: string, siteId: string, level: string, count: number) {
  const { firmId } = service.firm;
  const firmwareKey = levelKey("dotted", level) ?? null;
  const data = Array.from({ length: count }, () => {
    const id = uuidv7();
    const serial = id.slice(-12).toUpperCase();
    const place = { state: "installed", siteId };
    return { firmId, id, modelId, serial, ...place, firmwareLevel: level, firmwareKey };
  });
  await inFirm(service.db, firmId, (tx) => tx.unit.createMany({ data }));
}

test("the few that are due are found behind thousands that are not", async () => {
  const fleet = await addFleet(service, "dotted", ["1.0", "3.0", "1.0", "1.0"]);
  const { modelId, siteIds } = fleet;
  await postTarget(service, { modelId, level: "2.0" });
  await crowd(modelId, siteIds[1]!, "3.0", 2500);
  const expected = [siteIds[0], siteIds[2], siteIds[3]];
  const first = await due(`modelId=${modelId}&limit=1`);
  expect(first.map(({ id }) => id)).toEqual(expected.slice(0, 1));
  expect((await due(`modelId=${modelId}`)).map(({ id }) => id)).toEqual(expected);
});

test("a site with thousands of units that are due is one entry with all of them", async () => {
  const fleet = await addFleet(service, "dotted", ["1.0", "1.0"]);
  const { modelId, siteIds } = fleet;
  await postTarget(service, { modelId, level: "2.0" });
  await crowd(modelId, siteIds[0]!, "1.1", 2500);
  const sites = await due(`modelId=${modelId}`);
  expect(sites.map(({ id, units }) => [id, units.length])).toEqual([
    [siteIds[0], 2501],
    [siteIds[1], 1],
  ]);
});

test("a site's next visit is the first booked one for firmware that is not over", async () => {
  const { modelId, siteIds } = await addFleet(service, "dotted", ["1.0", "1.0"]);
  await postTarget(service, { modelId, level: "2.0" });
  const rows = rowsIn(service);
  const version = await rows.planVersion({ schema: "plan/1", stages: [] });
  const crewId = await rows.crew("Crew Firmware", []);
  const { firmId } = service.firm;
  const visit = async (kind: string, day: string, state = "booked"): Promise<string> => {
    const id = uuidv7();
    const jobId = await rows.job(siteIds[0]!, version.id);
    const at = (hour: string) => new Date(`2026-${day}T${hour}:00:00Z`);
    const span = { startsAt: at("09"), endsAt: at("11") };
    await inFirm(service.db, firmId, async (tx) => {
      await tx.job.update({ where: { firmId_id: { firmId, id: jobId } }, data: { kind } });
      await tx.visit.create({ data: { firmId, id, jobId, crewId, state, ...span } });
    });
    return id;
  };
  await visit("firmware", "11-24");
  await visit("inspection", "11-26");
  await visit("firmware", "11-27", "cancelled");
  await visit("firmware", "12-02");
  const next = await visit("firmware", "12-01");
  const [visited, unvisited] = await due(`modelId=${modelId}`);
  expect(visited!.nextVisit).toMatchObject({ id: next, startsAt: "2026-12-01T09:00:00.000Z" });
  expect(unvisited!.nextVisit).toBeNull();
});
