import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { addJobRows } from "../support/rows.ts";
import {
  addModel,
  addSite,
  install,
  ledgerOf,
  type Made,
  moveUnit,
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
const move = (unit: Made, what: "installation" | "removal" | "swap", body: object) =>
  moveUnit(service, unit, what, body);
const read = (unit: { id: string }) => readLife(service, unit);
const stock = () => receive(service, model.id);

describe("an installation", () => {
  test("puts the unit at the site, in its place of the bank, and on the job's ledger", async () => {
    const { jobId, siteId } = await addJobRows(service, { stages: [] });
    const bank = await office().post("/api/v1/banks").send({ siteId, name: "Bank A" });
    const unit = await stock();
    const at = "2026-03-02T10:30:00+01:00";
    const place = { siteId, bankId: bank.body.id, bankPosition: 2 };
    const reply = await move(unit, "installation", { ...place, jobId, at, note: "Left wall" });
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    expect(reply.body).toMatchObject({ ...place, state: "installed", version: 2 });
    const life = await read(unit);
    expect(life.events[0]).toMatchObject({ kind: "installed", siteId, jobId, note: "Left wall" });
    expect(life.events[0].at).toBe("2026-03-02T09:30:00.000Z");
    const [entry] = await ledgerOf(service, jobId);
    expect(entry!.kind).toBe("unit.installed");
    expect(JSON.parse(entry!.text).body).toMatchObject({
      unitId: unit.id,
      serial: unit.serial,
      ...place,
      installedAt: "2026-03-02T09:30:00.000Z",
    });
  });

  test("is refused while the unit is live at another site, which is named", async () => {
    const unit = await stock();
    const [first, second] = [await addSite(service), await addSite(service)];
    await install(service, unit, first);
    const reply = await move(unit, "installation", { siteId: second.id });
    expect([reply.status, reply.body.type]).toEqual([409, "/problems/serial-live-elsewhere"]);
    expect(reply.body.site).toEqual({ id: first.id, reference: first.reference });
    expect(reply.body.detail).toContain(first.reference);
    const again = await move(unit, "installation", { siteId: first.id });
    expect([again.status, again.body.type]).toEqual([409, "/problems/conflict"]);
  });

  test("is refused while the same serial is live under another model", async () => {
    const twinModel = await addModel(service);
    const unit = await stock();
    const twin = await receive(service, twinModel.id, { serial: unit.serial });
    const site = await addSite(service);
    await install(service, unit, site);
    const reply = await move(twin, "installation", { siteId: (await addSite(service)).id });
    expect([reply.status, reply.body.site]).toEqual([
      409,
      { id: site.id, reference: site.reference },
    ]);
  });

  test("refuses what it refers to by the pointer of the field", async () => {
    const other = await service.addFirm("dogwood");
    const theirs = await addSite(service, {}, other);
    const [site, elsewhere] = [await addSite(service), await addSite(service)];
    const bank = await office()
      .post("/api/v1/banks")
      .send({ siteId: elsewhere.id, name: "Elsewhere" });
    const { jobId } = await addJobRows(service, { stages: [] });
    const unit = await stock();
    for (const [body, pointer] of [
      [{ siteId: theirs.id }, "/body/siteId"],
      [{ siteId: site.id, bankId: bank.body.id }, "/body/bankId"],
      [{ siteId: site.id, bankId: site.id }, "/body/bankId"],
      [{ siteId: site.id, bankPosition: 1 }, "/body/bankPosition"],
      [{ siteId: site.id, bankId: bank.body.id, bankPosition: 0 }, "/body/bankPosition"],
      [{ siteId: site.id, jobId: site.id }, "/body/jobId"],
      [{ siteId: site.id, jobId }, "/body/jobId"],
      [{ siteId: site.id, at: new Date(Date.now() + 600_000).toISOString() }, "/body/at"],
      [{ siteId: site.id, at: "2026-03-02T10:30:00" }, "/body/at"],
    ] as const) {
      const reply = await move(unit, "installation", body);
      expect([reply.status, pointersOf(reply)], JSON.stringify(body)).toEqual([422, [pointer]]);
    }
    expect((await read(unit)).version).toBe(1);
  });

  test("of an inverter in a bank is refused", async () => {
    const inverters = await addModel(service, { kind: "inverter" });
    const inverter = await receive(service, inverters.id);
    const site = await addSite(service);
    const bank = await office().post("/api/v1/banks").send({ siteId: site.id, name: "Bank A" });
    const body = { siteId: site.id, bankId: bank.body.id };
    const reply = await move(inverter, "installation", body);
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/bankId"]]);
    expect((await move(inverter, "installation", { siteId: site.id })).status).toBe(201);
  });

  test("at an archived site, and on a job that is not open, is refused", async () => {
    const { jobId, siteId } = await addJobRows(service, { stages: [] });
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.job.updateMany({ where: { id: jobId }, data: { state: "cancelled" } }),
    );
    const unit = await stock();
    const onJob = await move(unit, "installation", { siteId, jobId });
    expect([onJob.status, onJob.body.type]).toEqual([409, "/problems/job-not-open"]);
    await office().patch(`/api/v1/sites/${siteId}`).set("if-match", '"1"').send({ archived: true });
    expect((await move(unit, "installation", { siteId })).status).toBe(409);
    expect(await ledgerOf(service, jobId)).toEqual([]);
  });

  test("takes a tablet's clock that runs a little ahead for now", async () => {
    const unit = await stock();
    const siteId = (await addSite(service)).id;
    const at = new Date(Date.now() + 120_000);
    const reply = await move(unit, "installation", { siteId, at: at.toISOString() });
    expect(reply.status).toBe(201);
    const { events } = await read(unit);
    const installed = events.find((event: { kind: string }) => event.kind === "installed");
    expect(new Date(installed.at).getTime()).toBeLessThan(at.getTime());
  });
});
