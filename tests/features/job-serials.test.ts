import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { ledgerOf, pointers } from "../support/reading.ts";
import { type Rows, SMALL_PLAN, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planVersionId: string;
let modelId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planVersionId, modelId } = await startWork());
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);
const open = (fields: object = {}) =>
  office()
    .post("/api/v1/jobs")
    .send({ siteId, kind: "install", title: "Two packs", planVersionId, ...fields });
const unitIdsOf = async (jobId: string) =>
  (await office().get(`/api/v1/jobs/${jobId}`)).body.units.map(
    ({ unitId, position }: { unitId: string; position: number }) => [position, unitId],
  );
describe("a plan that reads attributes of product models", () => {
  const items = [
    {
      kind: "measure",
      id: "pack_voltage",
      title: "Voltage of the pack",
      do: "Measure across the pack's terminals.",
      holdPoint: true,
      unit: "V",
      repeat: { per: "unit", ofKind: "battery-pack" },
      limit: { min: { cel: "model.voltageMinV" } },
    },
  ];
  const document = {
    ...SMALL_PLAN,
    attributes: { voltageMinV: "number", wallHung: "flag" },
    stages: [{ id: "packs", title: "Packs", items }],
  };

  test("takes only units whose model has those it needs, and says what is missing", async () => {
    const { id } = await rows.planVersion(document);
    const whole = await rows.model({ attributes: { voltageMinV: 48, wallHung: true } });
    const wrong = await rows.model({ attributes: { voltageMinV: "48", wallHung: true } });
    const bare = await rows.model();
    const meter = await rows.model({ kind: "meter", attributes: { wallHung: false } });
    const units = [];
    for (const model of [whole, wrong, bare, meter]) {
      units.push({ unitId: await rows.unit(model) });
    }
    const refused = await open({ planVersionId: id, units });
    expect([refused.status, pointers(refused)]).toEqual([
      422,
      ["/body/units/1/unitId", "/body/units/2/unitId", "/body/units/2/unitId"],
    ]);
    const details = refused.body.errors.map(({ detail }: { detail: string }) => detail).join();
    expect(details).toContain("wallHung (flag)");
    const { status, body: job } = await open({ planVersionId: id, units: [units[0], units[3]] });
    expect(status).toBe(201);
    const added = await office().post(`/api/v1/jobs/${job.id}/units`).send(units[1]);
    expect([added.status, pointers(added)]).toEqual([422, ["/body/unitId"]]);
    const captured = await installer()
      .post(`/api/v1/jobs/${job.id}/serials`)
      .send({ modelId: bare, serial: "HN00000001" });
    expect([captured.status, pointers(captured)]).toEqual([
      422,
      ["/body/modelId", "/body/modelId"],
    ]);
    const listed = await office().get(`/api/v1/units?modelId=${bare}`);
    expect(listed.body.items).toHaveLength(1);
  });
});

describe("a serial captured on the job", () => {
  test("receives a unit nobody knew, and puts it on the job", async () => {
    const { body: job } = await open();
    const capture = (serial: string) =>
      installer()
        .post(`/api/v1/jobs/${job.id}/serials`)
        .send({ modelId, serial, hardwareRevision: "B" });
    const first = await capture(" hn 0000 A001 ");
    expect(first.status).toBe(201);
    expect(first.body).toMatchObject({
      serial: "HN0000A001",
      hardwareRevision: "B",
      position: 1,
      state: "received",
      received: true,
    });
    const again = await capture("HN0000A001");
    expect([again.status, again.body.unitId, again.body.received]).toEqual([
      200,
      first.body.unitId,
      false,
    ]);
    expect((await ledgerOf(service, job.id)).map(({ kind }) => kind)).toEqual([
      "job.opened",
      "job.unit-added",
    ]);
    const unit = await office().get(`/api/v1/units/${first.body.unitId}`);
    expect(unit.body.serial).toBe("HN0000A001");
  });

  test("finds a unit that was received before", async () => {
    const unitId = await rows.unit(modelId);
    const unit = await office().get(`/api/v1/units/${unitId}`);
    const { body: job } = await open();
    const reply = await installer()
      .post(`/api/v1/jobs/${job.id}/serials`)
      .send({ modelId, serial: unit.body.serial });
    expect([reply.status, reply.body.unitId, reply.body.received]).toEqual([201, unitId, false]);
  });

  test("is refused when it breaks the model's rule, or is live elsewhere", async () => {
    const { body: job } = await open();
    const capture = (fields: object) =>
      installer()
        .post(`/api/v1/jobs/${job.id}/serials`)
        .send({ modelId, ...fields });
    const short = await capture({ serial: "HN12" });
    expect([short.status, pointers(short)]).toEqual([422, ["/body/serial"]]);
    const unknown = await capture({ serial: "HN12345678", modelId: uuidv7() });
    expect([unknown.status, pointers(unknown)]).toEqual([422, ["/body/modelId"]]);
    const other = await rows.site();
    const there = await rows.unit(modelId, { siteId: other.id, state: "installed" });
    const { serial } = (await office().get(`/api/v1/units/${there}`)).body;
    const live = await capture({ serial });
    expect([live.status, live.body.type]).toEqual([409, "/problems/serial-live-elsewhere"]);
    expect(await unitIdsOf(job.id)).toEqual([]);
  });
});
