import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { pointers } from "../support/reading.ts";
import { item, TRIED_PLAN } from "../support/tried-plan.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
beforeAll(async () => {
  ({ service, rows } = await startWork());
});
afterAll(() => service.stop());

const manager = () => service.as(service.firm.people.manager);
const post = (body: object) => manager().post("/api/v1/plans/trial").send(body);

const SITE = { supply: "TN-C-S", region: "uk", country: "GB", timeZone: "Europe/London" };
const METER = {
  ...{ id: "meter", reference: "MM-1", class: "multimeter" },
  calibrations: [{ on: "2026-01-05", due: "2027-01-05", passed: true }],
};
const PACK = { kind: "battery-pack", attributes: { ocvMinV: 48 } };
const volts = (number: number, more: object = {}) => ({
  ...{ itemId: "volts", subject: "battery-pack-1", instrumentId: "meter" },
  ...{ value: { number, unit: "V" } },
  ...more,
});
const CONTEXT = { site: SITE, units: [PACK], instruments: [METER] };
const READY = { itemId: "ready", value: { done: true } };

describe("a trial", () => {
  test("gives verdicts, the gate, limits worked out and why an item is not asked", async () => {
    const { status, body } = await post({
      ...{ document: TRIED_PLAN, context: CONTEXT, answers: [READY, volts(47.5)] },
    });
    expect(status).toBe(200);
    const [ready, voltage, electrode] = body.items;
    expect(ready).toMatchObject({ itemId: "ready", verdict: { outcome: "pass" } });
    expect(voltage).toMatchObject({ itemId: "volts", subject: "battery-pack-1" });
    expect(voltage.verdict).toMatchObject({
      ...{ outcome: "fail", needed: "at least 48 V" },
      sentence: "Read 47.5 V; needed at least 48 V.",
      reading: { number: 47.5, unit: "V" },
    });
    expect(electrode).toMatchObject({
      ...{ notAskedBy: 'site.supply == "TT"', verdict: { outcome: "not-applicable" } },
    });
    expect(body.gate).toMatchObject({ open: false, stats: { holdPoints: 2, holdPointsMet: 1 } });
    expect(body.gate.blockers).toHaveLength(1);
    expect(body.gate.blockers[0]).toMatchObject({ itemId: "volts", concedable: true });
  });

  test("opens the gate once everything is met, or conceded", async () => {
    const passing = await post({
      ...{ document: TRIED_PLAN, context: CONTEXT, answers: [READY, volts(48)] },
    });
    expect(passing.body.gate).toMatchObject({ open: true, blockers: [] });
    const concessions = [{ itemId: "volts", subject: "battery-pack-1" }];
    const conceded = await post({
      ...{ document: TRIED_PLAN, context: { ...CONTEXT, concessions } },
      answers: [READY, volts(47)],
    });
    expect(conceded.body.gate.open).toBe(true);
  });

  test("tells the faults of a document that cannot be published, and judges nothing", async () => {
    const [stage] = TRIED_PLAN.stages;
    const broken = { ...TRIED_PLAN, attributes: {}, stages: [stage] };
    const { status, body } = await post({ document: broken, context: CONTEXT });
    expect([status, body.publishable, body.gate, body.items]).toEqual([200, false, null, []]);
    expect(body.problems).toMatchObject([
      { pointer: "/stages/0/items/1/limit/min/cel", code: "unknown-name" },
    ]);
  });

  test("takes models and instruments of the firm by id, and versions of its plans", async () => {
    const modelId = await rows.model({ attributes: { ocvMinV: 50 } });
    const meterId = await rows.instrument("Meter of the van");
    const plan = await manager()
      .post("/api/v1/plans")
      .send({ code: "TRIED", title: "Tried", document: TRIED_PLAN });
    const { status, body } = await post({
      plan: { planId: plan.body.id, number: 1 },
      context: { site: SITE, units: [{ productModelId: modelId }], instruments: [{ id: meterId }] },
      answers: [READY, volts(50, { instrumentId: meterId })],
    });
    expect(status).toBe(200);
    expect(body.items[1].verdict).toMatchObject({
      ...{ outcome: "stale-instrument", needed: "at least 50 V" },
      code: "instrument-out-of-calibration",
    });
  });

  test("refuses with pointers what the firm does not have", async () => {
    const nobody = "01900000-0000-7000-8000-00000000dead";
    const unknown = await post({
      document: TRIED_PLAN,
      context: {
        site: SITE,
        units: [{ productModelId: nobody }],
        instruments: [{ id: nobody }],
      },
    });
    expect([unknown.status, pointers(unknown)]).toEqual([
      422,
      ["/body/context/units/0/productModelId", "/body/context/instruments/0/id"],
    ]);
    const other = await service.addFirm("hazel");
    const plan = await service
      .as(other.people.manager)
      .post("/api/v1/plans")
      .send({ code: "THEIRS", title: "Theirs", document: TRIED_PLAN });
    const theirs = await post({ plan: { planId: plan.body.id, number: 1 }, context: CONTEXT });
    expect(theirs.status).toBe(404);
  });

  test("is for those who plan", async () => {
    const { installer } = service.firm.people;
    const reply = await service
      .as(installer)
      .post("/api/v1/plans/trial")
      .send({ context: CONTEXT });
    expect(reply.status).toBe(403);
  });

  test("refuses with pointers answers that cannot be read", async () => {
    const unreadable = await post({
      ...{ document: TRIED_PLAN, context: CONTEXT },
      answers: [
        { itemId: "nothing", value: { done: true } },
        volts(1, { subject: "battery-pack-9" }),
        volts(1, { instrumentId: "lost" }),
        { itemId: "ready", value: { count: 1 } },
      ],
    });
    expect([unreadable.status, pointers(unreadable)]).toEqual([
      422,
      [
        "/body/answers/0/itemId",
        "/body/answers/1/subject",
        "/body/answers/2/instrumentId",
        "/body/answers/3/value/count",
      ],
    ]);
    const neither = await post({ context: CONTEXT });
    expect([neither.status, pointers(neither)]).toEqual([422, ["/body/document"]]);
  });

  test("is bounded by answers and by how often the plan asks", async () => {
    const answers = Array.from({ length: 2001 }, () => READY);
    const many = await post({ document: TRIED_PLAN, context: CONTEXT, answers });
    expect([many.status, pointers(many)]).toEqual([422, ["/body/answers"]]);
    const repeated = Array.from({ length: 26 }, (_, index) =>
      item({ id: `item_${index}`, kind: "confirm", repeat: { times: 200 } }),
    );
    const long = { ...TRIED_PLAN, stages: [{ id: "all", title: "All", items: repeated }] };
    const large = await post({ document: long, context: CONTEXT });
    expect([large.status, pointers(large)]).toEqual([422, ["/body/context/units"]]);
  });
});
