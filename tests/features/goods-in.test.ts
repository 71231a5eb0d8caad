import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import {
  addModel,
  addSite,
  install,
  kindsOf,
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
const receiveByApi = (body: object) => office().post("/api/v1/units").send(body);
const move = (unit: Made, what: "installation" | "removal" | "swap", body: object) =>
  moveUnit(service, unit, what, body);
const read = (unit: { id: string }) => readLife(service, unit);
const stock = () => receive(service, model.id);

describe("goods-in", () => {
  test("puts a unit in stock under its serial as it is kept", async () => {
    const number = nextNumber();
    const reply = await receiveByApi({
      modelId: model.id,
      serial: ` fs ${number}\n`,
      hardwareRevision: "C2",
      note: "Carton dented",
    });
    expect([reply.status, reply.headers.etag]).toEqual([201, '"1"']);
    expect(reply.body).toMatchObject({
      serial: `FS${number}`,
      modelCode: expect.stringMatching(/^CAIRN-/),
      kind: "battery-pack",
      state: "received",
      hardwareRevision: "C2",
      note: "Carton dented",
      siteId: null,
    });
    const read = await office().get(reply.headers.location as string);
    expect([read.body, read.headers.etag]).toEqual([reply.body, '"1"']);
    const life = (await office().get(`${reply.headers.location}/life`)).body;
    expect(life).toMatchObject(reply.body);
    expect(kindsOf(life)).toEqual(["received"]);
    expect(life.events[0].personId).toBe(service.firm.people.office.id);
  });

  test.each([
    ["too short", "FS12"],
    ["of another form", "XX0001"],
  ])("refuses a serial that is %s by its pointer", async (_what, serial) => {
    const reply = await receiveByApi({ modelId: model.id, serial });
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/serial"]]);
    expect(reply.body.errors[0].detail).toBe(reply.body.detail);
  });

  test("suggests the serial that a look-alike was read for, and does not change it", async () => {
    const reply = await receiveByApi({ modelId: model.id, serial: "FS12O4" });
    expect([reply.status, reply.body.suggestion]).toEqual([422, "FS1204"]);
    expect((await office().get("/api/v1/units?serial=FS1204")).body.items).toEqual([]);
  });

  test("checks the check digit that the model's serials carry", async () => {
    // ISO/IEC 7812-1 Annex B: 7992739871 takes the check digit 3 (sum 67).
    const luhn = await addModel(service, { serialMask: "#{11}", serialCheck: "luhn" });
    const wrong = await receiveByApi({ modelId: luhn.id, serial: "79927398710" });
    expect([wrong.status, pointersOf(wrong)]).toEqual([422, ["/body/serial"]]);
    const right = await receiveByApi({ modelId: luhn.id, serial: "79927398713" });
    expect(right.status).toBe(201);
  });

  test("refuses a model of another firm by its pointer", async () => {
    const other = await service.addFirm("birch");
    const theirs = await addModel(service, {}, other);
    const reply = await receiveByApi({ modelId: theirs.id, serial: "FS9999" });
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/modelId"]]);
  });

  test("takes a serial once, from two requests at the same time too", async () => {
    const body = { modelId: model.id, serial: `FS${nextNumber()}` };
    const replies = await Promise.all([receiveByApi(body), receiveByApi(body)]);
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    const refused = replies.find(({ status }) => status === 409)!;
    const made = replies.find(({ status }) => status === 201)!;
    expect(refused.body.unitId).toBe(made.body.id);
  });

  test("is done once for one Idempotency-Key", async () => {
    const body = { modelId: model.id, serial: `FS${nextNumber()}` };
    const send = () => receiveByApi(body).set("idempotency-key", "goods-in-4711");
    const replies = await Promise.all([send(), send()]);
    expect(replies.map(({ status }) => status)).toEqual([201, 201]);
    expect(kindsOf(await read(replies[0].body))).toEqual(["received"]);
  });

  test("takes a unit back into stock, with its history, that had been removed", async () => {
    const unit = await stock();
    await install(service, unit, await addSite(service));
    const body = { modelId: model.id, serial: unit.serial };
    expect((await receiveByApi(body)).status).toBe(409);
    await move(unit, "removal", { reason: "Sent in for repair" });
    const back = await receiveByApi({ ...body, note: "Repaired" });
    expect([back.status, back.body.id, back.body.state]).toEqual([200, unit.id, "received"]);
    const life = await read(unit);
    expect(kindsOf(life)).toEqual(["received", "installed", "removed", "received"]);
    expect(life.note).toBe("Repaired");
  });
});
