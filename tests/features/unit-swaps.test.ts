import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addJobRows } from "../support/rows.ts";
import {
  addModel,
  addSite,
  install,
  type Made,
  moveUnit,
  nextNumber,
  readLife,
  receive,
} from "../support/stock.ts";

let service: TestService;
let model: Made;
beforeAll(async () => {
  service = await startService();
  model = await addModel(service);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const read = (id: string) => readLife(service, { id });
const stock = () => receive(service, model.id);
const swap = (old: { id: string }, body: object) =>
  moveUnit(service, old, "swap", { reason: "Cell 7 does not balance", ...body });

async function installed(): Promise<{ unit: Made; site: Made }> {
  const [unit, site] = [await stock(), await addSite(service)];
  await install(service, unit, site);
  return { unit, site };
}

describe("a swap", () => {
  test("puts the new unit in the old one's place of site and bank, events on both", async () => {
    const site = await addSite(service);
    const bank = await office().post("/api/v1/banks").send({ siteId: site.id, name: "Bank A" });
    const [old, fresh] = [await stock(), await stock()];
    const place = { bankId: bank.body.id, bankPosition: 3 };
    await install(service, old, site, place);
    const reply = await swap(old, { newUnitId: fresh.id });
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    expect(reply.body.old).toMatchObject({ state: "swapped", siteId: null, bankId: null });
    expect(reply.body.new).toMatchObject({
      ...place,
      state: "installed",
      siteId: site.id,
      replacesUnitId: old.id,
    });
    expect(reply.headers.location).toBe(`/api/v1/units/${fresh.id}`);
    const [oldEvent, newEvent] = [
      (await read(old.id)).events.at(-1),
      (await read(fresh.id)).events.at(-1),
    ];
    expect(oldEvent).toMatchObject({
      kind: "swapped",
      siteId: site.id,
      otherUnitId: fresh.id,
      note: "Cell 7 does not balance",
    });
    expect(newEvent).toMatchObject({ kind: "installed", siteId: site.id, otherUnitId: old.id });
    expect(newEvent.at).toBe(oldEvent.at);
  });

  test("keeps the chain of three units, seen from each of them", async () => {
    const { unit: first } = await installed();
    const [second, third] = [await stock(), await stock()];
    await swap(first, { newUnitId: second.id });
    await swap(second, { newUnitId: third.id });
    const chainOf = async (id: string) => {
      const { replaces, replacedBy } = await read(id);
      const serials = (swaps: { serial: string }[]) => swaps.map(({ serial }) => serial);
      return { replaces: serials(replaces), replacedBy: serials(replacedBy) };
    };
    expect(await chainOf(first.id)).toEqual({
      replaces: [],
      replacedBy: [second.serial, third.serial],
    });
    expect(await chainOf(second.id)).toEqual({
      replaces: [first.serial],
      replacedBy: [third.serial],
    });
    expect(await chainOf(third.id)).toEqual({
      replaces: [second.serial, first.serial],
      replacedBy: [],
    });
  });

  test("shows an end to the chain when a repaired unit comes back into it", async () => {
    const { unit: first } = await installed();
    const second = await stock();
    await swap(first, { newUnitId: second.id });
    await office().post("/api/v1/units").send({ modelId: model.id, serial: first.serial });
    expect((await swap(second, { newUnitId: first.id })).status).toBe(201);
    const life = await read(first.id);
    expect(life.state).toBe("installed");
    const serials = (swaps: { serial: string }[]) => swaps.map(({ serial }) => serial);
    expect(serials(life.replacedBy)).toEqual([second.serial, first.serial]);
    expect(serials(life.replaces)).toEqual([second.serial, first.serial]);
  });

  test("records the goods-in of a new serial that nobody had received", async () => {
    const { unit: old, site } = await installed();
    const serial = `FS${nextNumber()}`;
    const reply = await swap(old, { newSerial: serial.toLowerCase() });
    expect(reply.body.new).toMatchObject({ serial, siteId: site.id });
    const kinds = (await read(reply.body.new.id)).events.map(
      (event: { kind: string }) => event.kind,
    );
    expect(kinds).toEqual(["received", "installed"]);
  });

  test("takes the unit in stock when its serial is typed, of the model that is named", async () => {
    const { unit: old } = await installed();
    const successor = await addModel(service);
    const fresh = await receive(service, successor.id);
    const reply = await swap(old, { newSerial: fresh.serial, modelId: successor.id });
    expect([reply.status, reply.body.new.id]).toEqual([201, fresh.id]);
  });

  test("on a job goes on its ledger, and the job goes on with the new unit", async () => {
    const { jobId, siteId } = await addJobRows(service, { stages: [] });
    const [old, fresh] = [await stock(), await stock()];
    await install(service, old, { id: siteId, reference: "", serial: "", version: 1 });
    const { firmId } = service.firm;
    await inFirm(service.db, firmId, (tx) =>
      tx.jobUnit.create({ data: { firmId, jobId, unitId: old.id, position: 4 } }),
    );
    expect((await swap(old, { newUnitId: fresh.id, jobId })).status).toBe(201);
    const [units, entries] = await inFirm(service.db, firmId, async (tx) => [
      await tx.jobUnit.findMany({ where: { jobId }, select: { unitId: true, position: true } }),
      await tx.ledgerEntry.findMany({ where: { jobId } }),
    ]);
    expect(units).toEqual([{ unitId: fresh.id, position: 4 }]);
    expect(entries.map(({ kind }) => kind)).toEqual(["unit.swapped"]);
    expect(JSON.parse(entries[0]!.text).body).toMatchObject({
      siteId,
      old: { unitId: old.id, serial: old.serial },
      new: { unitId: fresh.id, serial: fresh.serial },
    });
  });

  test("is done once for one Idempotency-Key", async () => {
    const { unit: old } = await installed();
    const fresh = await stock();
    const send = () => swap(old, { newUnitId: fresh.id }).set("idempotency-key", "swap-4711");
    const replies = await Promise.all([send(), send()]);
    expect(replies.map(({ status }) => status)).toEqual([201, 201]);
    expect((await read(old.id)).replacedBy).toHaveLength(1);
  });
});
