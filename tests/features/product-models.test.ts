import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { addModel, modelBody, receive } from "../support/stock.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const add = (fields: object = {}) =>
  office().post("/api/v1/product-models").send(modelBody(fields));
const edit = (id: string, version: number, change: object) =>
  office().patch(`/api/v1/product-models/${id}`).set("if-match", `"${version}"`).send(change);

const SWITCH_MAP = {
  schema: "switch-map/1",
  id: "cairn",
  productModel: "Cairn 48",
  source: "Cairn 48 installation manual, edition 3",
  switches: [
    { kind: "rotary", id: "address", label: "ADDR", positions: ["0", "1", "2", "3", "4"] },
  ],
  protocols: [
    {
      id: "can-b",
      name: "CAN B",
      packCount: { minimum: 1, maximum: 4 },
      settings: {
        form: "formula",
        parts: [{ switch: "address", rule: { by: "position", add: 0 } }],
      },
      address: { switch: "address" },
      gapsAllowed: false,
    },
  ],
};

describe("product models", () => {
  test("are set up with attributes and a switch map, read and listed", async () => {
    const attributes = { nominalVoltageV: 51.2, hasHeater: false, chemistry: "LFP" };
    const reply = await add({ attributes, switchMap: SWITCH_MAP });
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    expect(reply.body).toMatchObject({ attributes, switchMap: SWITCH_MAP, serialCheck: "none" });
    const read = await office().get(reply.headers.location as string);
    expect([read.body, read.headers.etag]).toEqual([reply.body, '"1"']);
    const list = await office().get(`/api/v1/product-models?code=${reply.body.code.toLowerCase()}`);
    expect(list.body.items).toEqual([reply.body]);
    const inverters = await office().get("/api/v1/product-models?kind=inverter");
    expect(inverters.body.items).toEqual([]);
  });

  test("have a code of their own", async () => {
    const body = modelBody();
    const send = () => office().post("/api/v1/product-models").send(body);
    const replies = await Promise.all([send(), send()]);
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
  });

  test.each([
    ["a repeat with no end", { serialMask: "FS#{4" }, "/body/serialMask"],
    ["an empty mask", { serialMask: "" }, "/body/serialMask"],
    ["a mask above 64 characters", { serialMask: "#{65}" }, "/body/serialMask"],
    [
      "a check digit that the mask leaves no room for",
      { serialMask: "###A", serialCheck: "luhn" },
      "/body/serialMask",
    ],
    ["a check that is none", { serialCheck: "crc" }, "/body/serialCheck"],
    ["a kind that is none", { kind: "toaster" }, "/body/kind"],
    ["a scheme that is none", { firmwareScheme: "calendar" }, "/body/firmwareScheme"],
    ["an attribute that begins with a digit", { attributes: { "1st": 1 } }, "/body/attributes/1st"],
    [
      "an attribute named like a part of every object",
      { attributes: { constructor: 1 } },
      "/body/attributes/constructor",
    ],
    ["an attribute that is a list", { attributes: { a: [1] } }, "/body/attributes/a"],
    [
      "a switch map that gives two packs one address",
      {
        switchMap: {
          ...SWITCH_MAP,
          protocols: [
            {
              ...SWITCH_MAP.protocols[0],
              settings: {
                form: "formula",
                parts: [{ switch: "address", rule: { by: "fixed", position: "1" } }],
              },
            },
          ],
        },
      },
      "/body/switchMap",
    ],
  ])("with %s are refused with the pointer of the field", async (_what, fields, pointer) => {
    const reply = await add(fields);
    expect(reply.status).toBe(422);
    expect(pointersOf(reply)).toContain(pointer);
  });

  test("with an attribute named __proto__ are refused", async () => {
    const body = JSON.stringify(modelBody({ attributes: { a: 1 } })).replace('"a"', '"__proto__"');
    const reply = await office()
      .post("/api/v1/product-models")
      .set("content-type", "application/json")
      .send(body);
    expect([reply.status, reply.body.type]).toEqual([400, "/problems/unreadable-body"]);
  });

  test.each([
    [60, 201],
    [61, 422],
  ])("with %d attributes get %d", async (count, status) => {
    const entries = Array.from({ length: count }, (_, index) => [`a${index}`, index]);
    expect((await add({ attributes: Object.fromEntries(entries) })).status).toBe(status);
  });

  test.each([
    [40, 201],
    [41, 422],
  ])("with an attribute name of %d characters get %d", async (length, status) => {
    expect((await add({ attributes: { ["a".repeat(length)]: 1 } })).status).toBe(status);
  });

  test("are edited against the version that was read, their rule checked as a whole", async () => {
    const { id } = await addModel(service);
    expect((await office().patch(`/api/v1/product-models/${id}`).send({})).status).toBe(428);
    const misfit = await edit(id, 1, { serialCheck: "luhn", serialMask: "FS@@" });
    expect([misfit.status, pointersOf(misfit)]).toEqual([422, ["/body/serialMask"]]);
    const done = await edit(id, 1, { serialCheck: "luhn" });
    expect([done.status, done.body.serialCheck, done.headers.etag]).toEqual([200, "luhn", '"2"']);
    const letters = await edit(id, 2, { serialMask: "@@@#" });
    expect([letters.status, pointersOf(letters)]).toEqual([422, ["/body/serialMask"]]);
    expect((await edit(id, 1, { name: "Late" })).status).toBe(412);
  });

  test("keep code and kind", async () => {
    const { id } = await addModel(service);
    expect((await edit(id, 1, { code: "OTHER" })).status).toBe(422);
    expect((await edit(id, 1, { kind: "meter" })).status).toBe(422);
  });

  test("lose their switch map when it is set to null, and keep it otherwise", async () => {
    const added = await add({ switchMap: SWITCH_MAP });
    const { id } = added.body;
    expect((await edit(id, 1, { name: "Renamed" })).body.switchMap).toEqual(SWITCH_MAP);
    expect((await edit(id, 2, { switchMap: null })).body.switchMap).toBeNull();
  });

  test("change their firmware scheme only while no level was ordered by it", async () => {
    const { id } = await addModel(service);
    expect((await edit(id, 1, { firmwareScheme: "dotted" })).status).toBe(200);
    const unit = await receive(service, id);
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.unit.updateMany({ where: { id: unit.id }, data: { firmwareLevel: "1.2" } }),
    );
    const refused = await edit(id, 2, { firmwareScheme: "semver" });
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/conflict"]);
    expect((await edit(id, 2, { firmwareScheme: "dotted", name: "Same" })).status).toBe(200);
  });

  test("of another firm are not there, and its codes are its own", async () => {
    const other = await service.addFirm("birch");
    const body = modelBody();
    const ours = await office().post("/api/v1/product-models").send(body);
    const theirs = service.as(other.people.office);
    expect((await theirs.get(`/api/v1/product-models/${ours.body.id}`)).status).toBe(404);
    expect((await theirs.get("/api/v1/product-models")).body.items).toEqual([]);
    expect((await theirs.post("/api/v1/product-models").send(body)).status).toBe(201);
  });

  test("are read by everyone and set up by owner and office alone", async () => {
    const { id } = await addModel(service);
    const installer = service.as(service.firm.people.installer);
    expect((await installer.get(`/api/v1/product-models/${id}`)).status).toBe(200);
    expect((await installer.post("/api/v1/product-models").send(modelBody())).status).toBe(403);
  });
});
