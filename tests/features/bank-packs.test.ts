import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addModel, addSite, install, type Made, receive } from "../support/stock.ts";

let service: TestService;
let model: Made;
beforeAll(async () => {
  service = await startService();
  model = await addModel(service);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);

async function addBank(site: Made, name = "Bank A"): Promise<Made> {
  const reply = await office().post("/api/v1/banks").send({ siteId: site.id, name });
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

async function packAt(site: Made, fields: object = {}): Promise<Made> {
  const unit = await receive(service, model.id);
  return install(service, unit, site, fields);
}

const put = (bank: { id: string }, version: number, packs: [Made, number][]) =>
  installer()
    .put(`/api/v1/banks/${bank.id}/packs`)
    .set("if-match", `"${version}"`)
    .send({ packs: packs.map(([unit, position]) => ({ unitId: unit.id, position })) });

const placesOf = (bank: { packs: { serial: string; position: number | null }[] }) =>
  bank.packs.map(({ serial, position }) => [serial, position]);

describe("the packs of a bank", () => {
  test("stand in order of position, and may trade places", async () => {
    const site = await addSite(service);
    const bank = await addBank(site);
    const [first, second] = [await packAt(site), await packAt(site)];
    const placed = await put(bank, 1, [
      [second, 2],
      [first, 1],
    ]);
    expect([placed.status, placed.headers.etag]).toEqual([200, '"2"']);
    expect(placesOf(placed.body)).toEqual([
      [first.serial, 1],
      [second.serial, 2],
    ]);
    const traded = await put(bank, 2, [
      [first, 2],
      [second, 1],
    ]);
    expect(placesOf(traded.body)).toEqual([
      [second.serial, 1],
      [first.serial, 2],
    ]);
  });

  test("that are left out are no longer part of it and stay at the site", async () => {
    const site = await addSite(service);
    const bank = await addBank(site);
    const [kept, left] = [await packAt(site), await packAt(site)];
    await put(bank, 1, [
      [kept, 1],
      [left, 2],
    ]);
    expect(placesOf((await put(bank, 2, [[kept, 1]])).body)).toEqual([[kept.serial, 1]]);
    const { body } = await office().get(`/api/v1/units/${left.id}`);
    expect([body.siteId, body.bankId, body.bankPosition]).toEqual([site.id, null, null]);
  });

  test("without a position come last", async () => {
    const site = await addSite(service);
    const bank = await addBank(site);
    const loose = await packAt(site, { bankId: bank.id });
    const placed = await packAt(site, { bankId: bank.id, bankPosition: 5 });
    const read = await office().get(`/api/v1/banks/${bank.id}`);
    expect(placesOf(read.body)).toEqual([
      [placed.serial, 5],
      [loose.serial, null],
    ]);
  });

  test("are refused by pointer when they are not packs installed at the bank's site", async () => {
    const [site, elsewhere] = [await addSite(service), await addSite(service)];
    const [bank, second] = [await addBank(site), await addBank(site, "Bank B")];
    const meters = await addModel(service, { kind: "meter" });
    const meter = await install(service, await receive(service, meters.id), site);
    const reply = await put(bank, 1, [
      [await packAt(site), 1],
      [await packAt(elsewhere), 2],
      [await receive(service, model.id), 3],
      [meter, 4],
      [await packAt(site, { bankId: second.id }), 5],
      [site, 6],
    ]);
    expect(reply.status).toBe(422);
    expect(reply.body.errors.map((error: { pointer: string }) => error.pointer)).toEqual(
      [1, 2, 3, 4, 5].map((index) => `/body/packs/${index}/unitId`),
    );
    const read = await office().get(`/api/v1/banks/${bank.id}`);
    expect([read.body.packs, read.body.version]).toEqual([[], 1]);
  });

  test.each([
    [0, 422],
    [1, 200],
    [64, 200],
    [65, 422],
  ])("in position %d get %d", async (position, status) => {
    const site = await addSite(service);
    const reply = await put(await addBank(site), 1, [[await packAt(site), position]]);
    expect(reply.status).toBe(status);
  });

  test("have each a position of their own", async () => {
    const site = await addSite(service);
    const bank = await addBank(site);
    const [first, second] = [await packAt(site), await packAt(site)];
    const shared = await put(bank, 1, [
      [first, 1],
      [second, 1],
    ]);
    expect([shared.status, shared.body.errors[0].pointer]).toEqual([422, "/body/packs"]);
    const twice = await put(bank, 1, [
      [first, 1],
      [first, 2],
    ]);
    expect(twice.status).toBe(422);
  });

  test("are put against the version that was read, one of two at the same time", async () => {
    const site = await addSite(service);
    const bank = await addBank(site);
    const packs = [await packAt(site), await packAt(site)];
    const unread = await installer().put(`/api/v1/banks/${bank.id}/packs`).send({ packs: [] });
    expect(unread.status).toBe(428);
    const replies = await Promise.all(packs.map((pack) => put(bank, 1, [[pack, 1]])));
    expect(replies.map(({ status }) => status).sort()).toEqual([200, 412]);
  });

  test("installed meanwhile are not put out of the bank unseen", async () => {
    const site = await addSite(service);
    const bank = await addBank(site);
    const first = await packAt(site);
    await packAt(site, { bankId: bank.id, bankPosition: 2 });
    expect((await put(bank, 1, [[first, 1]])).status).toBe(412);
  });
});
