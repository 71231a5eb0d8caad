// Terms, registrations, readings and the state of a unit over the API, in a real database.
// Last days: Regulation (EEC, Euratom) No 1182/71 Article 3(2)(c), from memory.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { pointersOf } from "../support/replies.ts";
import { addModel, addSite, install, type Made, receive } from "../support/stock.ts";

const INSTALLED_AT = "2024-02-29T10:00:00Z";
let now = new Date("2024-03-01T12:00:00Z");
let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => now });
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const manager = () => service.as(service.firm.people.manager);
const on = (day: string) => {
  now = new Date(`${day}T12:00:00Z`);
};

const addTerms = (model: Made, body: object) =>
  manager()
    .post(`/api/v1/product-models/${model.id}/warranty-terms`)
    .send({ appliesFrom: "2020-01-01", years: 10, evidenceNeeded: false, ...body });
const read = async (unit: Made) => (await office().get(`/api/v1/units/${unit.id}/warranty`)).body;
const register = (unit: Made, registeredOn: string) =>
  office()
    .put(`/api/v1/units/${unit.id}/warranty/registration`)
    .send({ registeredOn, reference: "FS-REG-1" });
const enter = (unit: Made, body: object) =>
  office().post(`/api/v1/units/${unit.id}/warranty/readings`).send(body);

async function installed(terms: object): Promise<{ model: Made; unit: Made }> {
  on("2024-03-01");
  const model = await addModel(service);
  const reply = await addTerms(model, terms);
  expect(reply.status, reply.text).toBe(201);
  const unit = await receive(service, model.id);
  await install(service, unit, await addSite(service), { at: INSTALLED_AT });
  return { model, unit };
}

describe("a unit's warranty", () => {
  test("runs from its installation where no job has it, to its last day", async () => {
    const { unit } = await installed({});
    expect(await read(unit)).toMatchObject({
      ...{ state: "in-term", commissionedOn: "2024-02-29", endsOn: "2034-02-28", reasons: [] },
      terms: { number: 1 },
    });
    on("2034-02-28");
    expect((await read(unit)).state).toBe("in-term");
    on("2034-03-01");
    expect(await read(unit)).toMatchObject({ state: "expired", reasons: ["period-over"] });
  });

  test("is at risk until the day to register, and lapsed after it", async () => {
    const { unit } = await installed({ registerWithinDays: 30 });
    on("2024-03-30");
    expect(await read(unit)).toMatchObject({
      ...{ state: "at-risk", reasons: ["registration-due"], gaps: ["registration"] },
      registerBy: "2024-03-30",
    });
    on("2024-03-31");
    expect(await read(unit)).toMatchObject({ state: "lapsed", reasons: ["registration-missed"] });
    const early = await register(unit, "2024-04-01");
    expect([early.status, pointersOf(early)]).toEqual([422, ["/body/registeredOn"]]);
    expect((await register(unit, "2024-03-30")).body).toMatchObject({ state: "in-term", gaps: [] });
    expect((await register(unit, "2024-03-31")).body).toMatchObject({ state: "lapsed" });
  });

  test("is pending until its job closes, and then has what a claim needs", async () => {
    now = new Date("2026-11-25T17:00:00Z");
    const job = await addPracticeJob(service);
    const [id] = job.packIds as [string];
    const pack = (await office().get(`/api/v1/units/${id}`)).body;
    await addTerms({ ...pack, id: pack.modelId }, { evidenceNeeded: true });
    expect(await read(pack)).toMatchObject({
      ...{ state: "pending", commissionedOn: null, endsOn: null },
      gaps: ["commissioning", "evidence"],
    });
    const installer = service.as(service.firm.people.installer);
    await installer.post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers: job.answers() });
    const closed = await installer.post(`/api/v1/jobs/${job.jobId}/close-out`);
    expect(closed.status, closed.text).toBe(201);
    const whole = { state: "in-term", commissionedOn: "2026-11-25", endsOn: "2036-11-25" };
    expect(await read(pack)).toMatchObject({ ...whole, gaps: [] });
    const reason = { reason: "A torque was doubted" };
    const reopened = await manager().post(`/api/v1/jobs/${job.jobId}/reopening`).send(reason);
    expect(reopened.status, reopened.text).toBe(201);
    const doubted = { ...whole, state: "at-risk", reasons: ["evidence-incomplete"] };
    expect(await read(pack)).toMatchObject({ ...doubted, gaps: ["evidence"] });
  });

  test("is not started anew where the unit moves to another site", async () => {
    const { unit } = await installed({});
    const path = `/api/v1/units/${unit.id}`;
    on("2025-06-01");
    const removal = await office().post(`${path}/removal`).send({ reason: "Moved house" });
    expect(removal.status, removal.text).toBe(201);
    expect(await read(unit)).toMatchObject({ siteId: null, commissionedOn: "2024-02-29" });
    await install(service, unit, await addSite(service));
    expect(await read(unit)).toMatchObject({ commissionedOn: "2024-02-29", endsOn: "2034-02-28" });
  });

  test("has no state where its model has no terms", async () => {
    on("2024-03-01");
    const unit = await receive(service, (await addModel(service)).id);
    expect(await read(unit)).toMatchObject({ terms: null, state: null, reasons: [] });
  });
});

describe("readings", () => {
  test("give the throughput used and projected, and temperatures out of range", async () => {
    const terms = { throughputKwh: 10_000, temperature: { lowest: 0, highest: 45 } };
    const { unit } = await installed(terms);
    expect((await read(unit)).gaps).toEqual(["throughput-reading", "temperature-reading"]);
    on("2024-06-08");
    const entered = await enter(unit, {
      readOn: "2024-06-08",
      throughputKwh: 100,
      temperature: { lowest: 0, highest: 45 },
    });
    expect(entered.status, entered.text).toBe(201);
    // 100 days for 100 kWh; 2034-02-28 is 3,652 days after commissioning (a day a kWh).
    const found = await read(unit);
    expect(found).toMatchObject({ state: "in-term", throughput: { usedKwh: 100 } });
    expect(found.throughput.projectedKwh).toBeCloseTo(3652, 6);
    on("2024-06-09");
    await enter(unit, { readOn: "2024-06-09", temperature: { lowest: 1, highest: 45.5 } });
    expect(await read(unit)).toMatchObject({ state: "at-risk", reasons: ["temperature-outside"] });
    await enter(unit, { readOn: "2024-06-07", throughputKwh: 10_000 });
    expect((await read(unit)).state).toBe("at-risk");
    const again = await enter(unit, { readOn: "2024-06-09", throughputKwh: 10_000 });
    expect(again.status).toBe(409);
    const list = await office().get(`/api/v1/units/${unit.id}/warranty/readings?limit=2`);
    expect(list.body.items.map(({ readOn }: { readOn: string }) => readOn)).toEqual([
      "2024-06-07",
      "2024-06-09",
    ]);
    expect(list.body.next).not.toBeNull();
  });
});

describe("terms", () => {
  test("are kept in versions; a unit keeps that of its commissioning", async () => {
    const { model, unit } = await installed({ years: 5 });
    const later = await addTerms(model, { years: 12, appliesFrom: "2024-03-01" });
    expect(later.body).toMatchObject({ number: 2, years: 12 });
    const second = await receive(service, model.id);
    on("2024-03-02");
    await install(service, second, await addSite(service), { at: "2024-03-01T09:00:00Z" });
    expect((await read(unit)).endsOn).toBe("2029-02-28");
    expect((await read(second)).endsOn).toBe("2036-03-01");
    const early = await addTerms(model, { appliesFrom: "2024-03-01" });
    expect([early.status, pointersOf(early)]).toEqual([422, ["/body/appliesFrom"]]);
    const list = await office().get(`/api/v1/warranty?modelId=${model.id}`);
    expect(list.body.items.map(({ unitId }: { unitId: string }) => unitId)).toEqual([
      unit.id,
      second.id,
    ]);
  });

  test("ask for a firmware level that has a place in the model's order", async () => {
    const { model, unit } = await installed({ firmware: { level: "2.4.0", withinDays: 30 } });
    const odd = { appliesFrom: "2025-01-01", firmware: { level: "newest", withinDays: 30 } };
    expect(pointersOf(await addTerms(model, odd))).toEqual(["/body/firmware/level"]);
    const note = (level: string, readAt: string) =>
      office()
        .post(`/api/v1/units/${unit.id}/firmware-readings`)
        .send({ level, readAt, source: "api" });
    on("2024-03-30");
    await note("2.3.9", "2024-03-05T10:00:00Z");
    expect(await read(unit)).toMatchObject({ state: "at-risk", reasons: ["firmware-due"] });
    const reached = await note("2.4.1", "2024-03-30T10:00:00Z");
    expect(reached.status, reached.text).toBe(201);
    on("2024-06-01");
    expect(await read(unit)).toMatchObject({ state: "in-term", gaps: [] });
  });
});
