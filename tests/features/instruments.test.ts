import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { nextNumber } from "../support/stock.ts";

// 23:30 on 1 July in UTC is half past midnight on 2 July where the firm is (Europe/London, UTC+1).
const NOW = new Date("2026-07-01T23:30:00Z");
const TODAY = "2026-07-02";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

const body = (fields: object = {}) => ({
  reference: `IT-${nextNumber()}`,
  name: "Insulation tester, van 2",
  instrumentClass: "insulation-tester",
  serial: "4471-0932",
  ...fields,
});
const add = (fields: object = {}) => office().post("/api/v1/instruments").send(body(fields));

async function addInstrument(fields: object = {}): Promise<{ id: string; reference: string }> {
  const reply = await add(fields);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

const edit = (id: string, version: number, change: object) =>
  office().patch(`/api/v1/instruments/${id}`).set("if-match", `"${version}"`).send(change);
const calibrate = (id: string, fields: object = {}) =>
  office()
    .post(`/api/v1/instruments/${id}/calibrations`)
    .send({ calibratedOn: "2026-01-15", passed: true, certificate: "CAL-26-1187", ...fields });
const read = async (id: string) => (await office().get(`/api/v1/instruments/${id}`)).body;

describe("instruments", () => {
  test("are taken into use with accuracy, range and resolution, and read as entered", async () => {
    const fields = {
      accuracy: { percentOfReading: 0.5, digits: 3 },
      rangeMax: { value: 1000, unit: "MΩ" },
      resolution: { step: 0.01, unit: "MΩ" },
      intervalMonths: 6,
      intervalCycles: 5000,
    };
    const reply = await add(fields);
    expect([reply.status, reply.headers.etag]).toEqual([201, '"1"']);
    expect(reply.body).toMatchObject({ ...fields, calibratedOn: null, dueOn: null });
    const found = await office().get(reply.headers.location as string);
    expect(found.body).toEqual({ ...reply.body, calibrations: [] });
  });

  test("have twelve months between calibrations when nothing else is said", async () => {
    expect(await read((await addInstrument()).id)).toMatchObject({
      intervalMonths: 12,
      intervalCycles: null,
      accuracy: null,
    });
  });

  test.each([
    ["a class that is none", { instrumentClass: "divining-rod" }, "/body/instrumentClass"],
    ["a unit that is none", { rangeMax: { value: 1, unit: "furlong" } }, "/body/rangeMax/unit"],
    ["a range of nothing", { rangeMax: { value: 0, unit: "V" } }, "/body/rangeMax/value"],
    ["an accuracy of no parts", { accuracy: {} }, "/body/accuracy"],
    [
      "a negative accuracy",
      { accuracy: { percentOfReading: -0.1 } },
      "/body/accuracy/percentOfReading",
    ],
    [
      "a part of a range that is not given",
      { accuracy: { percentOfRange: 1 } },
      "/body/accuracy/percentOfRange",
    ],
    [
      "digits of a resolution that is not given",
      { accuracy: { digits: 2 } },
      "/body/accuracy/digits",
    ],
    ["no interval", { intervalMonths: 0 }, "/body/intervalMonths"],
    ["an interval above ten years", { intervalMonths: 121 }, "/body/intervalMonths"],
  ])("with %s are refused with the pointer of the field", async (_what, fields, pointer) => {
    const reply = await add(fields);
    expect([reply.status, pointersOf(reply)]).toEqual([422, [pointer]]);
  });

  test("have a reference of their own, when added and when edited", async () => {
    const taken = await addInstrument();
    expect((await add({ reference: taken.reference })).status).toBe(409);
    const { id } = await addInstrument();
    expect((await edit(id, 1, { reference: taken.reference })).status).toBe(409);
  });

  test("are edited against the version read, their accuracy checked as a whole", async () => {
    const { id } = await addInstrument({
      accuracy: { digits: 2 },
      resolution: { step: 0.1, unit: "V" },
    });
    expect((await office().patch(`/api/v1/instruments/${id}`).send({})).status).toBe(428);
    const misfit = await edit(id, 1, { resolution: null });
    expect([misfit.status, pointersOf(misfit)]).toEqual([422, ["/body/accuracy/digits"]]);
    const done = await edit(id, 1, { accuracy: null, resolution: null, name: "Spare" });
    expect([done.status, done.body.accuracy, done.body.name]).toEqual([200, null, "Spare"]);
    expect((await edit(id, 1, { name: "Late" })).status).toBe(412);
  });

  test("are retired, leave the list, and come back", async () => {
    const { id } = await addInstrument({ instrumentClass: "tape" });
    const list = async (query = "") =>
      (await office().get(`/api/v1/instruments?instrumentClass=tape${query}`)).body.items.map(
        (item: { id: string }) => item.id,
      );
    expect(await list()).toEqual([id]);
    const retired = await edit(id, 1, { retiredOn: TODAY });
    expect(retired.body.retiredOn).toBe(TODAY);
    expect([await list(), await list("&retired=true")]).toEqual([[], [id]]);
    expect((await calibrate(id)).status).toBe(409);
    expect((await edit(id, 2, { retiredOn: null })).body.retiredOn).toBeNull();
    expect((await calibrate(id)).status).toBe(201);
  });

  test("of another firm are not there", async () => {
    const other = await service.addFirm("birch");
    const { id } = await addInstrument();
    const theirs = service.as(other.people.office);
    expect((await theirs.get(`/api/v1/instruments/${id}`)).status).toBe(404);
    expect((await theirs.get("/api/v1/instruments")).body.items).toEqual([]);
    const calibration = await theirs
      .post(`/api/v1/instruments/${id}/calibrations`)
      .send({ calibratedOn: "2026-01-15", passed: true, certificate: "X" });
    expect(calibration.status).toBe(404);
  });

  test("are read by everyone and kept by owner and office alone", async () => {
    const { id } = await addInstrument();
    const installer = service.as(service.firm.people.installer);
    expect((await installer.get(`/api/v1/instruments/${id}`)).status).toBe(200);
    expect((await installer.post("/api/v1/instruments").send(body())).status).toBe(403);
    const refused = await installer.post(`/api/v1/instruments/${id}/calibrations`).send({});
    expect(refused.status).toBe(403);
  });
});
