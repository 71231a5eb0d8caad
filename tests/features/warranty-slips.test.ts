// What was entered for a warranty by a slip is taken back; the ledger keeps both.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { addModel, addSite, install, ledgerOf, type Made, receive } from "../support/stock.ts";

let now = new Date("2026-11-25T17:00:00Z");
let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => now });
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const manager = () => service.as(service.firm.people.manager);
const addTerms = (model: Made, body: object) =>
  manager()
    .post(`/api/v1/product-models/${model.id}/warranty-terms`)
    .send({ appliesFrom: "2020-01-01", years: 10, evidenceNeeded: false, ...body });
const read = async (unit: Made) => (await office().get(`/api/v1/units/${unit.id}/warranty`)).body;

describe("a slip", () => {
  test("in a registration is taken back, and the job's ledger keeps both", async () => {
    const job = await addPracticeJob(service);
    const [id] = job.packIds as [string];
    const path = `/api/v1/units/${id}/warranty/registration`;
    const noted = { registeredOn: "2026-11-25", reference: "FS-REG-1" };
    expect((await office().put(path).send(noted)).status).toBe(200);
    const back = await office().delete(path);
    expect([back.status, back.body.registration]).toEqual([200, null]);
    expect((await office().delete(path)).status).toBe(404);
    expect((await service.as(service.firm.people.installer).delete(path)).status).toBe(403);
    const kept = (await ledgerOf(service, job.jobId)).filter(({ kind }) => /^warranty/.test(kind));
    expect(kept.map(({ kind, text }) => [kind, JSON.parse(text).body])).toEqual([
      [
        "warranty.registered",
        {
          ...{ unitId: id, personId: service.firm.people.office.id },
          ...{ registeredOn: "2026-11-25", reference: "FS-REG-1" },
        },
      ],
      ["warranty.registration-removed", { unitId: id, personId: service.firm.people.office.id }],
    ]);
  });

  test("in the latest terms is taken back, until a claim was opened under them", async () => {
    now = new Date("2024-03-01T12:00:00Z");
    const model = await addModel(service);
    expect((await addTerms(model, { years: 5 })).status).toBe(201);
    const unit = await receive(service, model.id);
    await install(service, unit, await addSite(service), { at: "2024-02-29T10:00:00Z" });
    expect((await addTerms(model, { years: 12, appliesFrom: "2024-02-01" })).status).toBe(201);
    expect((await read(unit)).endsOn).toBe("2036-02-29");
    const path = `/api/v1/product-models/${model.id}/warranty-terms`;
    expect((await manager().delete(`${path}/1`)).status).toBe(409);
    expect((await office().delete(`${path}/2`)).status).toBe(403);
    expect((await manager().delete(`${path}/2`)).status).toBe(204);
    expect((await read(unit)).endsOn).toBe("2029-02-28");
    await office().post("/api/v1/warranty/claims").send({ unitId: unit.id, fault: "Dead cell" });
    const held = await manager().delete(`${path}/1`);
    expect([held.status, held.body.detail]).toEqual([409, expect.stringMatching(/^Claims were/)]);
  });
});
