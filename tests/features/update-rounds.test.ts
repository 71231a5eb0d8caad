import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";

const NOW = new Date("2026-11-25T09:00:00Z");
let service: TestService;
let planId: string;
let crewId: string;
let siteIds: string[];

const office = () => service.as(service.firm.people.office);
const manager = () => service.as(service.firm.people.manager);
const propose = (more: object = {}) =>
  office()
    .post("/api/v1/update-rounds")
    .send({ planId, crewIds: [crewId], fromDay: "2026-11-30", days: 1, ...more });

beforeAll(async () => {
  service = await startService({ now: () => NOW });
  const fleet = await addFleet(service, "semver", ["2.3.0", "2.3.0", "2.3.0", "2.4.0"]);
  siteIds = fleet.siteIds;
  await postTarget(service, { modelId: fleet.modelId, level: "2.4.0" }, "2026-12-10");
  await inFirm(service.db, service.firm.firmId, async (tx) => {
    for (const [index, id] of siteIds.entries()) {
      await tx.site.update({
        where: { firmId_id: { firmId: service.firm.firmId, id } },
        data: { latitude: 52 + index * 0.05, longitude: -1.5 },
      });
    }
  });
  const plan = await manager()
    .post("/api/v1/plans")
    .send({ code: "UPD", starter: "firmware-visit" });
  planId = plan.body.id;
  const published = await manager().post(`/api/v1/plans/${planId}/versions/1/publication`);
  expect(published.status, JSON.stringify(published.body)).toBe(201);
  const crew = await office()
    .post("/api/v1/crews")
    .send({ name: "Round crew", personIds: [service.firm.people.installer.id] });
  crewId = crew.body.id;
});
afterAll(async () => service.stop());

test("a proposal takes the due sites, books nothing, and tells where it starts", async () => {
  const { status, body } = await propose();
  expect(status, JSON.stringify(body)).toBe(201);
  const stops = body.proposal.rounds.flatMap(({ stops: all }: { stops: object[] }) => all);
  const visited = stops.map(({ siteId }: { siteId: string }) => siteId);
  expect(visited.toSorted()).toEqual(siteIds.slice(0, 3).toSorted());
  expect(body.proposal.base.isEstimate).toBe(true);
  for (const stop of stops) {
    expect(Date.parse(stop.endsAt) - Date.parse(stop.startsAt)).toBe(40 * 60_000);
    expect(stop.startsAt).toMatch(/T\d\d:\d[05]:00/);
  }
  const visits = await office().get("/api/v1/visits?from=2026-11-30&to=2026-11-30");
  expect(visits.body.items).toEqual([]);
  const { text } = await office().get("/api/v1/exports/update-rounds.csv");
  const [row] = parse(text, { columns: true, bom: true });
  expect(row).toMatchObject({ reference: body.reference, state: "proposed", stops: "3" });
  const drawing = await office().get(`/api/v1/update-rounds/${body.id}/drawing`);
  expect(drawing.headers["content-type"]).toContain("image/svg+xml");
});

test("what an earlier booking takes is left out of it, or nothing at all is booked", async () => {
  const { body } = await propose();
  const [first] = body.proposal.rounds[0].stops;
  const job = await office()
    .post("/api/v1/jobs")
    .send({
      ...{ siteId: siteIds[3], kind: "inspection", title: "Other work", planId },
    });
  const taken = await office()
    .post(`/api/v1/jobs/${job.body.id}/visits`)
    .send({ crewId, startsAt: first.startsAt, endsAt: first.endsAt });
  expect(taken.status, JSON.stringify(taken.body)).toBe(201);
  const refused = await office().post(`/api/v1/update-rounds/${body.id}/acceptance`);
  expect(refused.status).toBe(409);
  expect(refused.body.type).toBe("/problems/double-booked");
  const visits = await office().get("/api/v1/visits?from=2026-11-30&to=2026-11-30");
  expect(visits.body.items).toHaveLength(1);
  const still = await office().get(`/api/v1/update-rounds/${body.id}`);
  expect(still.body.state).toBe("proposed");
  const around = await propose();
  const start = Date.parse(first.startsAt);
  for (const stop of around.body.proposal.rounds[0].stops) {
    expect(
      Date.parse(stop.endsAt) <= start || Date.parse(stop.startsAt) >= start + 40 * 60_000,
    ).toBe(true);
  }
});

test("accepted, every stop is a visit, once, and its site is planned no more", async () => {
  const { body } = await propose();
  const key = { "idempotency-key": "accept-rounds-once" };
  const first = await office().post(`/api/v1/update-rounds/${body.id}/acceptance`).set(key);
  expect(first.status, JSON.stringify(first.body)).toBe(201);
  expect(first.body.visitIds).toHaveLength(3);
  const again = await office().post(`/api/v1/update-rounds/${body.id}/acceptance`).set(key);
  expect(again.body.visitIds).toEqual(first.body.visitIds);
  const twice = await office().post(`/api/v1/update-rounds/${body.id}/acceptance`);
  expect(twice.status).toBe(409);
  const visit = await office().get(`/api/v1/visits/${first.body.visitIds[0]}`);
  expect(visit.body.job.kind).toBe("firmware");
  const empty = await propose();
  expect(empty.body.proposal.rounds).toEqual([]);
});

test("planned anew, the earlier visits that have not begun give way to the new ones", async () => {
  const rounds = await office().get("/api/v1/update-rounds");
  const old = rounds.body.items.find(({ state }: { state: string }) => state === "accepted");
  const anew = await propose({ fromDay: "2026-12-01", replacesId: old.id });
  expect(anew.body.proposal.rounds[0].stops).toHaveLength(3);
  const accepted = await office().post(`/api/v1/update-rounds/${anew.body.id}/acceptance`);
  expect(accepted.status, JSON.stringify(accepted.body)).toBe(201);
  const before = await office().get("/api/v1/visits?from=2026-11-30&to=2026-11-30");
  expect(before.body.items.map(({ job }: { job: { kind: string } }) => job.kind)).toEqual([
    "inspection",
  ]);
  const after = await office().get("/api/v1/visits?from=2026-12-01&to=2026-12-01");
  expect(after.body.items).toHaveLength(3);
  const jobs = await office().get("/api/v1/jobs?kind=firmware");
  expect(jobs.body.items).toHaveLength(3);
});

/** Rounds on a Tuesday in place of those accepted. */
async function roundsAnew() {
  const { body } = await office().get("/api/v1/update-rounds");
  const { id } = body.items.find(({ state }: { state: string }) => state === "accepted");
  return (await propose({ fromDay: "2026-12-08", replacesId: id })).body.proposal;
}

test("a site is visited in the hours its customer has named, or left out", async () => {
  const hours = `/api/v1/sites/${siteIds[0]}/visit-hours`;
  const put = (value: object[], version: string) =>
    office().put(hours).set("if-match", version).send({ hours: value });
  const read = await office().get(hours);
  expect(read.body.hours).toEqual([]);
  const tuesday = { weekday: 2, from: "14:00", to: "15:00" };
  const kept = await put([tuesday], read.headers.etag as string);
  expect(kept.status, JSON.stringify(kept.body)).toBe(200);
  const afternoon = await roundsAnew();
  const stops = afternoon.rounds.flatMap((one: { stops: object[] }) => one.stops);
  const there = stops.find(({ siteId }: { siteId: string }) => siteId === siteIds[0]);
  expect(Date.parse(there.startsAt)).toBeGreaterThanOrEqual(Date.parse("2026-12-08T14:00Z"));
  expect(Date.parse(there.endsAt)).toBeLessThanOrEqual(Date.parse("2026-12-08T15:00Z"));
  const monday = { ...tuesday, weekday: 1 };
  await put([monday], kept.headers.etag as string);
  expect((await roundsAnew()).leftOut).toMatchObject([{ siteId: siteIds[0] }]);
  expect((await put([{ ...monday, from: "14:03" }], '"9"')).status).toBe(422);
  expect((await put([monday], '"9"')).status).toBe(412);
});

test("a crew is not sent while one is away, or lacks what the work asks for", async () => {
  const { id: personId } = service.firm.people.installer;
  const away = await office()
    .post("/api/v1/absences")
    .send({ personId, from: "2026-12-08", to: "2026-12-08", reason: "leave" });
  expect(away.status, JSON.stringify(away.body)).toBe(201);
  const absent = await roundsAnew();
  expect(absent.rounds).toEqual([]);
  expect(absent.notSent).toMatchObject([{ crewId, day: "2026-12-08" }]);
  expect((await office().delete(`/api/v1/absences/${away.body.id}`)).status).toBe(204);

  const kind = await manager().post("/api/v1/qualification-kinds").send({ name: "Live work" });
  const asked = await manager()
    .post("/api/v1/qualification-requirements")
    .send({ jobKind: "firmware", kindId: kind.body.id });
  expect(asked.status, JSON.stringify(asked.body)).toBe(201);
  const unskilled = await roundsAnew();
  expect(unskilled.notSent[0].sentence).toContain('does not hold "Live work"');
  expect(unskilled.leftOut[0].sentence).toContain("no crew has Live work");
  const fields = { personId, kindId: kind.body.id, validFrom: "2026-01-01" };
  expect((await office().post("/api/v1/qualifications").send(fields)).status).toBe(201);
  expect((await roundsAnew()).notSent).toEqual([]);
});

test("a round of another firm is not found, and installers plan none", async () => {
  const other = await service.addFirm("birch");
  const { body } = await propose();
  const seen = await service.as(other.people.office).get(`/api/v1/update-rounds/${body.id}`);
  expect(seen.status).toBe(404);
  const refused = await service
    .as(service.firm.people.installer)
    .post("/api/v1/update-rounds")
    .send({});
  expect(refused.status).toBe(403);
});

test.each([
  [{ crewIds: ["019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a11"] }, "/body/crewIds/0"],
  [{ planId: "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a11" }, "/body/planId"],
  [{ unitMin: 7 }, "/body/unitMin"],
  [{ days: 21 }, "/body/days"],
])("%j is refused at its field", async (more, pointer) => {
  const { status, body } = await propose(more);
  expect(status).toBe(422);
  expect(body.errors[0].pointer).toBe(pointer);
});
