import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet } from "../support/fleet.ts";

let service: TestService;
let modelId: string;
let siteIds: string[];
let rings: string[];
const manager = () => service.as(service.firm.people.manager);
const place = (ring: string | undefined, rule: object) =>
  manager().post(`/api/v1/firmware/rings/${ring}/placements`).send(rule);
const sitesIn = (ringId: string | undefined) =>
  inFirm(service.db, service.firm.firmId, async (tx) => {
    const rows = await tx.site.findMany({ where: { firmId: tx.firmId, ringId } });
    return rows.map(({ id }) => id).toSorted();
  });

beforeAll(async () => {
  service = await startService();
  ({ modelId, siteIds } = await addFleet(service, "semver", Array(10).fill("1.0.0")));
  await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.site.updateMany({
      where: { firmId: tx.firmId, id: { in: siteIds.slice(0, 4) } },
      data: { region: "north" },
    }),
  );
  rings = [];
  for (const [index, name] of ["First", "Second"].entries()) {
    const made = await manager()
      .post("/api/v1/firmware/rings")
      .send({ name, position: index + 1 });
    rings.push(made.body.id);
  }
});
afterAll(async () => service.stop());

test("a share is counted first and changes nothing", async () => {
  const tried = await place(rings[0], { modelId, percent: 25, tryOnly: true });
  expect(tried.body).toEqual({ matching: 10, placed: 3 });
  expect(await sitesIn(rings[0])).toEqual([]);
});

test("a larger share takes the same sites and more", async () => {
  expect((await place(rings[0], { modelId, percent: 25 })).body.placed).toBe(3);
  const few = await sitesIn(rings[0]);
  expect((await place(rings[0], { modelId, percent: 60 })).body.placed).toBe(6);
  const more = await sitesIn(rings[0]);
  expect(more).toHaveLength(6);
  expect(more).toEqual(expect.arrayContaining(few));
});

test("sites of another ring stay there unless that is asked for", async () => {
  const rest = await place(rings[1], { modelId });
  expect(rest.body).toEqual({ matching: 4, placed: 4 });
  const all = await place(rings[1], { region: "north", alsoFromOtherRings: true });
  expect(all.body).toEqual({ matching: 4, placed: 4 });
  expect(await sitesIn(rings[1])).toEqual(expect.arrayContaining(siteIds.slice(0, 4).toSorted()));
});

test("a ring of another firm is not found, and installers place nothing", async () => {
  const other = await service.addFirm("birch");
  const own = await service
    .as(other.people.manager)
    .post(`/api/v1/firmware/rings/${rings[0]}/placements`)
    .send({});
  expect(own.status).toBe(404);
  const { status } = await service
    .as(service.firm.people.installer)
    .post(`/api/v1/firmware/rings/${rings[0]}/placements`)
    .send({});
  expect(status).toBe(403);
  expect((await place(rings[0], { percent: 0 })).status).toBe(422);
});
