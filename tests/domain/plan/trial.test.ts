// Trying a plan with made-up answers, and the samples that trials begin from.
import { describe, expect, test } from "vitest";
import { sampleFor } from "../../../src/domain/plan/sample.ts";
import { tryPlan, verdictsOf } from "../../../src/domain/plan/trial.ts";
import { answerAt, contextOf, pack } from "../acceptance/judged.ts";
import { CONFIRM, type Draft, planOf } from "./small-plan.ts";

const STARTS_AT = "2026-11-20T08:00:00Z";
const sampled = (items: Draft[], more: Draft = {}) =>
  sampleFor(planOf([CONFIRM, ...items], more), STARTS_AT);
const itemValue = (items: Draft[], more: Draft = {}) =>
  sampled(items, more).answers.find(({ itemId }) => itemId === "item")?.value;

describe("a trial", () => {
  test("tells each verdict, what was needed, and why an item is not asked", () => {
    const plan = planOf([
      CONFIRM,
      { id: "volts", kind: "measure", unit: "V", limit: { min: 48 }, repeat: { times: 2 } },
      { id: "meter", kind: "confirm", appliesWhen: "count.meter > 0" },
    ]);
    const answers = [
      answerAt(1, "done", { done: true }),
      answerAt(2, "volts", { number: 47, unit: "V" }, { subject: "1" }),
    ];
    const { items, gate } = tryPlan(plan, answers, contextOf({}));
    expect(items.map(({ itemId, subject, verdict }) => [itemId, subject, verdict.outcome])).toEqual(
      [
        ["done", "", "pass"],
        ["volts", "1", "fail"],
        ["volts", "2", "missing"],
        ["meter", "", "not-applicable"],
      ],
    );
    expect(items.map(({ verdict: { needed } }) => needed)).toEqual([
      undefined,
      "at least 48 V",
      "at least 48 V",
      undefined,
    ]);
    expect(items.map(({ notAskedBy }) => notAskedBy).filter(Boolean)).toEqual(["count.meter > 0"]);
    expect(gate.blockers.map(({ itemId, subject }) => `${itemId} ${subject}`)).toEqual([
      "volts 1",
      "volts 2",
    ]);
  });

  test("tells of an item asked per unit that there is no such unit", () => {
    const plan = planOf([
      CONFIRM,
      { id: "meter", kind: "confirm", repeat: { per: "unit", ofKind: "meter" } },
    ]);
    const { items } = tryPlan(plan, [], contextOf({}));
    expect(items[1]).toMatchObject({
      itemId: "meter",
      subject: "",
      verdict: { code: "no-subjects" },
    });
  });

  test("gives as many verdicts as are counted beforehand", () => {
    const plan = planOf([
      CONFIRM,
      { id: "thrice", kind: "confirm", repeat: { times: 3 } },
      { id: "each", kind: "confirm", repeat: { per: "unit" } },
      { id: "meter", kind: "confirm", repeat: { per: "unit", ofKind: "meter" } },
    ]);
    const context = contextOf({ units: [pack(1), pack(2)] });
    expect(verdictsOf(plan, context)).toBe(1 + 3 + 2 + 1);
    expect(tryPlan(plan, [], context).items).toHaveLength(7);
  });
});

describe("a sample's answer", () => {
  test.each<[Draft, unknown]>([
    [
      { kind: "measure", unit: "V", limit: { nominal: 230, tolerance: { percent: 10 } } },
      { number: 230, unit: "V" },
    ],
    [
      { kind: "measure", unit: "V", limit: { min: 10, max: 30 } },
      { number: 20, unit: "V" },
    ],
    [
      { kind: "measure", unit: "Ω", limit: { max: 0.1 } },
      { number: 0.05, unit: "Ω" },
    ],
    [
      { kind: "measure", unit: "MΩ", limit: { min: 1 } },
      { number: 1.5, unit: "MΩ" },
    ],
    [
      { kind: "measure", unit: "°C", limit: { max: 0 } },
      { number: -1, unit: "°C" },
    ],
    [
      { kind: "measure", unit: "V", limit: { expression: "value > 700.0" } },
      { number: 770, unit: "V" },
    ],
    [{ kind: "count", limit: { expression: "value == 7.0" } }, { count: 7 }],
    [{ kind: "choose", options: ["a", "b"], limit: { oneOf: ["b"] } }, { choice: "b" }],
    [
      { kind: "tighten", points: 2, unit: "N·m", limit: { nominal: 8, tolerance: { percent: 4 } } },
      { points: [1, 2], setting: { number: 8, unit: "N·m" } },
    ],
    [{ kind: "identify", what: "firmware-level", limit: { oneOf: ["2.4.1"] } }, { text: "2.4.1" }],
    [
      { kind: "set", positions: [{ switch: "S1", position: { cel: "string(1 + 1)" } }] },
      { positions: { S1: "2" } },
    ],
  ])("to %j is %j", (item, value) => {
    expect(itemValue([{ id: "item", ...item }])).toEqual(value);
  });

  test("passes under a guard band, with an instrument whose accuracy is stated", () => {
    const item = { id: "item", kind: "measure", unit: "Ω", limit: { max: 0.1 } };
    const sample = sampled([{ ...item, instrument: { class: "low-ohm-meter" } }], {
      decisionRule: "guarded",
    });
    expect(sample.notDerived).toEqual([]);
    expect(sample.context.instruments).toMatchObject([
      { class: "low-ohm-meter", accuracy: { percentOfReading: 0.1 } },
    ]);
  });

  test("waits as long as the plan says, and comes with what the plan asks for", () => {
    const { answers, notDerived } = sampled([
      { id: "wait", kind: "confirm", dwell: { after: "done", atLeastS: 300 } },
      { id: "shown", kind: "photo", photos: 2 },
      { id: "noted", kind: "confirm", evidence: { note: true, photos: 1 } },
    ]);
    expect(notDerived).toEqual([]);
    const [done, wait, shown, noted] = answers;
    expect(Date.parse(wait!.takenAt) - Date.parse(done!.takenAt)).toBe(300_000);
    expect(new Set(shown!.photos).size).toBe(2);
    expect([noted!.photos?.length, noted!.note]).toEqual([1, "As found."]);
  });

  test("is taken after what it needs, though that stands later in the plan", () => {
    const { answers, notDerived } = sampled([
      { id: "late", kind: "confirm", after: ["early"] },
      { id: "early", kind: "confirm" },
    ]);
    expect(notDerived).toEqual([]);
    expect(answers.map(({ itemId }) => itemId)).toEqual(["done", "early", "late"]);
  });

  test("is said to be missing where none can be worked out", () => {
    const { answers, notDerived } = sampled([
      { id: "item", kind: "measure", unit: "V", limit: { expression: "value == 1.2345678" } },
      {
        id: "never",
        kind: "measure",
        unit: "V",
        limit: { expression: "value > 1.0 && value < 1.0" },
      },
    ]);
    expect(answers.map(({ itemId }) => itemId)).toEqual(["done", "item"]);
    expect(notDerived).toMatchObject([{ itemId: "never", subject: "" }]);
  });
});

describe("a sample's facts", () => {
  test("hold a figure for each attribute, the least below the most", () => {
    const attributes = {
      ...{ ocvMinV: "number", ocvMaxV: "number", terminalTorqueNm: "number" },
      ...{ hasHeater: "flag", dataBus: "text" },
    };
    const { assumed, notDerived } = sampled(
      [
        {
          ...{ id: "item", kind: "measure", unit: "V", repeat: { per: "unit" } },
          limit: { min: { cel: "model.ocvMinV" }, max: { cel: "model.ocvMaxV" } },
        },
      ],
      { attributes },
    );
    expect(notDerived).toEqual([]);
    expect(assumed.ocvMinV).toBeLessThan(assumed.ocvMaxV as number);
    expect(assumed).toMatchObject({ terminalTorqueNm: 8, hasHeater: true, dataBus: "Sample" });
  });

  test("hold a unit of each kind that is asked for, two packs, and the site as wished", () => {
    const perUnit = (ofKind: string) => ({ repeat: { per: "unit", ofKind } });
    const plan = planOf([
      CONFIRM,
      { id: "packs", kind: "confirm", ...perUnit("battery-pack") },
      { id: "gates", kind: "confirm", ...perUnit("gateway") },
    ]);
    const { context } = sampleFor(plan, STARTS_AT, { supply: "TT" });
    expect(context.units.map(({ id, position }) => `${position} ${id}`)).toEqual([
      "1 battery-pack-1",
      "2 battery-pack-2",
      "3 gateway-1",
    ]);
    expect(context.site).toMatchObject({ supply: "TT", region: "uk" });
  });
});
