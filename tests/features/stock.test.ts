// Goods-in with its look into the box, quarantine, and what lies where.
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { UNPACK_CHECKS } from "../../src/domain/kit/unpack-checks.ts";
import type { TestFirm, TestService } from "../support/app.ts";
import { idsOf, nextOf, pointers } from "../support/reading.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let other: TestFirm;
let packId: string;
let siteId: string;
let planId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planId, modelId: packId } = await startWork());
  other = await service.addFirm("birch");
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const manager = () => service.as(service.firm.people.manager);
const installer = () => service.as(service.firm.people.installer);

let count = 0;
const nextSerial = (): string => {
  count += 1;
  return `HN${String(count).padStart(8, "0")}`;
};
const goods = (more: { checks?: object; [name: string]: unknown } = {}) => ({
  modelId: packId,
  serial: nextSerial(),
  place: "Depot, rack 1",
  ...more,
  checks: { ...Object.fromEntries(UNPACK_CHECKS.map((check) => [check, "good"])), ...more.checks },
});
const take = async (more: Parameters<typeof goods>[0] = {}, client = office()) =>
  client.post("/api/v1/stock/goods-in").send(goods(more));
const openJob = async (unitId: string) =>
  office()
    .post("/api/v1/jobs")
    .send({ siteId, planId, kind: "install", title: "One pack", units: [{ unitId }] });

describe("goods-in", () => {
  test("keeps the unit at its place with the delivery note it came under", async () => {
    const reply = await take({ deliveryNote: "DN-55021", hardwareRevision: "C" });
    expect(reply.status).toBe(201);
    expect(reply.body).toMatchObject({
      condition: "sound",
      caution: null,
      deliveryNote: "DN-55021",
      unit: { state: "received", stockPlace: "Depot, rack 1", quarantinedAt: null },
    });
    const list = await office().get(`/api/v1/stock/units?serial=${reply.body.unit.serial}`);
    expect(list.body.items).toMatchObject([
      { deliveryNote: "DN-55021", condition: "sound", place: "Depot, rack 1", job: null },
    ]);
  });

  test("of a dented pack sets it apart at once, with the caution for damaged cells", async () => {
    const reply = await take({ checks: { casing: "bad" }, note: "Dent, lower left" });
    expect(reply.status).toBe(201);
    expect(reply.body.condition).toBe("damaged");
    expect(reply.body.caution).toMatch(/Stop and keep clear.*fire service.*local codes prevail/s);
    expect(reply.body.unit.quarantinedAt).toBe("2026-11-20T09:00:00.000Z");
    const life = await office().get(`/api/v1/units/${reply.body.unit.id}/life`);
    expect(life.body.events).toMatchObject([
      { kind: "received" },
      { kind: "quarantined", note: "Dent, lower left" },
    ]);
  });

  test("is refused while the unit itself was not looked at, and nothing is kept", async () => {
    const body = goods({ checks: { casing: "not-looked-at", terminals: "not-looked-at" } });
    const reply = await office().post("/api/v1/stock/goods-in").send(body);
    expect(reply.status).toBe(422);
    expect(pointers(reply)).toEqual(["/body/checks/casing", "/body/checks/terminals"]);
    const known = await office().get(`/api/v1/units?serial=${body.serial}`);
    expect(known.body.items).toEqual([]);
  });

  test("checks the serial by the model's rule, and takes one serial once", async () => {
    const wrong = await take({ serial: "XX1" });
    expect([wrong.status, pointers(wrong)]).toEqual([422, ["/body/serial"]]);
    const serial = nextSerial();
    expect((await take({ serial })).status).toBe(201);
    const twice = await take({ serial });
    expect([twice.status, twice.body.detail]).toMatchObject([409, /in stock already/]);
  });

  test("of a unit that comes back from a site puts it into stock again", async () => {
    const { body } = await take();
    const at = `/api/v1/units/${body.unit.id}`;
    await installer().post(`${at}/installation`).send({ siteId });
    const installed = await office().get(at);
    expect(installed.body).toMatchObject({ state: "installed", stockPlace: null });
    await installer().post(`${at}/removal`).send({ reason: "Moved house" });
    const back = await take({ serial: body.unit.serial, place: "Depot, bench" });
    expect([back.status, back.body.unit.stockPlace]).toEqual([200, "Depot, bench"]);
  });

  test("is for owner, office and installers of the own firm", async () => {
    expect((await take({}, installer())).status).toBe(201);
    expect((await take({}, manager())).status).toBe(403);
    const strange = await take({}, service.as(other.people.office));
    expect([strange.status, pointers(strange)]).toEqual([422, ["/body/modelId"]]);
  });
});

describe("a unit in quarantine", () => {
  const damaged = async () => (await take({ checks: { "tilt-marker": "bad" } })).body.unit;

  test("goes on no job and to no site; the database refuses it too", async () => {
    const unit = await damaged();
    const job = await openJob(unit.id);
    expect([job.status, job.body.detail]).toMatchObject([409, /in quarantine/]);
    const install = await installer()
      .post(`/api/v1/units/${unit.id}/installation`)
      .send({ siteId });
    expect([install.status, install.body.detail]).toMatchObject([409, /in quarantine/]);
    const client = new pg.Client({ connectionString: service.ownerUrl });
    await client.connect();
    const forced = client.query("UPDATE unit SET state = 'installed', site_id = $1 WHERE id = $2", [
      siteId,
      unit.id,
    ]);
    await expect(forced).rejects.toThrow("unit_quarantined_in_stock");
    await client.end();
  });

  test("is released by a manager with a reason, and then goes on a job", async () => {
    const unit = await damaged();
    const path = `/api/v1/units/${unit.id}/quarantine-release`;
    expect((await office().post(path).send({ reason: "Looks fine" })).status).toBe(403);
    expect(pointers(await manager().post(path).send({}))).toEqual(["/body/reason"]);
    const reply = await manager().post(path).send({ reason: "Maker's engineer found it sound." });
    expect([reply.status, reply.body.quarantinedAt]).toEqual([201, null]);
    expect((await manager().post(path).send({ reason: "Again" })).status).toBe(409);
    expect((await openJob(unit.id)).status).toBe(201);
  });

  test("can go back to its maker and leaves stock", async () => {
    const unit = await damaged();
    const reply = await office()
      .post(`/api/v1/units/${unit.id}/return-to-maker`)
      .send({ reason: "Collected by the maker's carrier" });
    expect(reply.body).toMatchObject({ state: "removed", quarantinedAt: null, stockPlace: null });
    const again = await office()
      .post(`/api/v1/units/${unit.id}/return-to-maker`)
      .send({ reason: "Twice" });
    expect(again.status).toBe(409);
  });

  test("is put there by whoever sees it, also later; another firm's is not found", async () => {
    const { body } = await take();
    const path = `/api/v1/units/${body.unit.id}/quarantine`;
    const theirs = service.as(other.people.office).post(path).send({ reason: "x" });
    expect((await theirs).status).toBe(404);
    expect((await installer().post(path).send({ reason: "Dropped" })).status).toBe(201);
    expect((await installer().post(path).send({ reason: "Dropped" })).status).toBe(409);
  });
});

test("stock is counted by model and place: all, free, and in quarantine (by hand)", async () => {
  const modelId = await rows.model();
  const inModel = (more: object = {}) => take({ modelId, place: "Barn", ...more });
  const units = [await inModel(), await inModel(), await inModel({ checks: { casing: "bad" } })];
  await take({ modelId, place: "Van 2" });
  await openJob(units[0]!.body.unit.id);
  const counts = await office().get("/api/v1/stock/counts");
  const own = counts.body.items.filter((row: { modelId: string }) => row.modelId === modelId);
  expect(own).toMatchObject([
    { place: "Barn", units: 3, free: 1, quarantined: 1 },
    { place: "Van 2", units: 1, free: 1, quarantined: 0 },
  ]);
  const free = await office().get(`/api/v1/stock/units?modelId=${modelId}&free=true&limit=2`);
  const rest = await office().get(nextOf(free));
  expect([...idsOf(free), ...idsOf(rest)]).toHaveLength(3);
  const apart = await office().get(`/api/v1/stock/units?modelId=${modelId}&quarantined=true`);
  expect(idsOf(apart)).toEqual([units[2]!.body.unit.id]);
  const place = { place: "Barn, left" };
  const moved = await installer()
    .post(`/api/v1/units/${units[1]!.body.unit.id}/stock-place`)
    .send(place);
  expect(moved.body.stockPlace).toBe("Barn, left");
});
