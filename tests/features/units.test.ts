import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addModel, addSite, install, type Made, readLife, receive } from "../support/stock.ts";

let service: TestService;
let model: Made;
beforeAll(async () => {
  service = await startService();
  model = await addModel(service);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);
const read = (unit: { id: string }) => readLife(service, unit);
const stock = () => receive(service, model.id);

describe("units", () => {
  test("are listed by serial or a part of it, model, site, state and firmware level", async () => {
    const own = await addModel(service, { serialMask: "QZ#{4}" });
    const site = await addSite(service);
    const first = await receive(service, own.id, { serial: "QZ7001" });
    const second = await receive(service, own.id, { serial: "QZ7102" });
    await install(service, second, site);
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.unit.updateMany({ where: { id: first.id }, data: { firmwareLevel: "9.8.7" } }),
    );
    const list = async (query: string): Promise<string[]> =>
      (await office().get(`/api/v1/units?${query}`)).body.items.map(
        (item: { serial: string }) => item.serial,
      );
    expect(await list("serial=QZ7001")).toEqual(["QZ7001"]);
    expect(await list("serial=qz71")).toEqual(["QZ7102"]);
    expect(await list("serial=%25")).toEqual([]);
    expect(await list(`modelId=${own.id}`)).toEqual(["QZ7001", "QZ7102"]);
    expect(await list(`modelId=${own.id}&state=received`)).toEqual(["QZ7001"]);
    expect(await list(`siteId=${site.id}`)).toEqual(["QZ7102"]);
    expect(await list("firmwareLevel=9.8.7")).toEqual(["QZ7001"]);
    const page = await office().get(`/api/v1/units?modelId=${own.id}&limit=1`);
    expect(page.body.items).toHaveLength(1);
    const next = /<([^>]+)>; rel="next"/.exec(page.headers.link ?? "")?.[1] ?? "";
    const rest = await office().get(next);
    expect([rest.body.items[0].serial, rest.body.next]).toEqual(["QZ7102", null]);
  });

  test("have hardware revision and note edited against the version that was read", async () => {
    const unit = await stock();
    const path = `/api/v1/units/${unit.id}`;
    expect((await installer().patch(path).send({ note: "x" })).status).toBe(428);
    const done = await installer()
      .patch(path)
      .set("if-match", '"1"')
      .send({ hardwareRevision: "D", note: "Label at the back" });
    expect([done.status, done.body.hardwareRevision, done.body.note]).toEqual([
      200,
      "D",
      "Label at the back",
    ]);
    const cleared = await installer().patch(path).set("if-match", '"2"').send({ note: null });
    expect([cleared.body.hardwareRevision, cleared.body.note]).toEqual(["D", null]);
    expect((await installer().patch(path).set("if-match", '"1"').send({})).status).toBe(412);
    const serial = await installer().patch(path).set("if-match", '"3"').send({ serial: "FS0000" });
    expect(serial.status).toBe(422);
  });

  test("of another firm are not there, to read, list, edit or move", async () => {
    const other = await service.addFirm("cedar");
    const unit = await stock();
    const theirs = service.as(other.people.office);
    const site = await addSite(service, {}, other);
    const path = `/api/v1/units/${unit.id}`;
    expect((await theirs.get(path)).status).toBe(404);
    expect((await theirs.get(`${path}/life`)).status).toBe(404);
    expect((await theirs.get("/api/v1/units")).body.items).toEqual([]);
    expect((await theirs.patch(path).set("if-match", '"1"').send({})).status).toBe(404);
    for (const [what, body] of [
      ["installation", { siteId: site.id }],
      ["removal", { reason: "x" }],
      ["swap", { newSerial: "FS0001", reason: "x" }],
    ] as const) {
      expect((await theirs.post(`${path}/${what}`).send(body)).status, what).toBe(404);
    }
  });

  test("are not the auditor's or the manager's to receive or move", async () => {
    const unit = await stock();
    for (const role of ["auditor", "manager"] as const) {
      const client = service.as(service.firm.people[role]);
      expect((await client.get(`/api/v1/units/${unit.id}`)).status).toBe(200);
      expect((await client.post("/api/v1/units").send({})).status).toBe(403);
      expect((await client.post(`/api/v1/units/${unit.id}/swap`).send({})).status).toBe(403);
    }
  });

  test("show the firmware levels that were read off them", async () => {
    const unit = await stock();
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.firmwareReading.createMany({
        data: ["1.4.0", "1.5.0"].map((level, index) => ({
          firmId: tx.firmId,
          id: `019ac4a1-0000-7000-8000-00000000000${index}`,
          unitId: unit.id,
          level,
          readAt: new Date(Date.UTC(2026, index, 1)),
          source: "tablet",
        })),
      }),
    );
    const { firmwareReadings } = await read(unit);
    expect(firmwareReadings.map((reading: { level: string }) => reading.level)).toEqual([
      "1.4.0",
      "1.5.0",
    ]);
    expect(firmwareReadings[0].readAt).toBe("2026-01-01T00:00:00.000Z");
  });
});
