import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AnchorCheckInput, anchorCheck } from "../../../src/domain/mechanical/anchor-check.ts";
import { ANCHOR_RULES } from "../../../src/domain/mechanical/anchor-rules.ts";
import type { Answer, Outcome } from "../../../src/domain/mechanical/calculation.ts";
import { wallLoadShear, wallLoadTension } from "../../../src/domain/mechanical/wall-load.ts";

function answer(outcome: Outcome): Answer {
  if (!outcome.ok) throw new Error(outcome.problem);
  return outcome;
}
const load = { massKg: 110, anchors: 4, topAnchors: 2, eccentricityM: 0.15, leverArmM: 0.6 };
const stepsOf = (outcome: Outcome) =>
  Object.fromEntries(answer(outcome).steps.map((step) => [step.label, step.result]));

describe("wall load: 110 kg, four anchors, e 0.15 m, h 0.6 m (statics, g 9.80665 m/s²)", () => {
  test("weight 1078.7 N, shear 269.7 N on each anchor", () => {
    expect(stepsOf(wallLoadShear.compute(load)).Weight).toBeCloseTo(1078.7, 1);
    expect(answer(wallLoadShear.compute(load)).result).toBeCloseTo(269.7, 1);
  });

  test("tension 269.7 N on the top pair, 134.8 N on each", () => {
    const tension = wallLoadTension.compute(load);
    expect(stepsOf(tension)["Tension of the top row"]).toBeCloseTo(269.7, 1);
    expect(answer(tension).result).toBeCloseTo(134.84, 2);
  });

  test("the forces balance the weight, and their moments balance about the lower edge", () => {
    const anyLoad = fc
      .record({
        massKg: fc.double({ min: 1, max: 500, noNaN: true }),
        anchors: fc.integer({ min: 3, max: 12 }),
        eccentricityM: fc.double({ min: 0.01, max: 1, noNaN: true }),
        leverArmM: fc.double({ min: 0.05, max: 3, noNaN: true }),
      })
      .map((one) => ({ ...one, topAnchors: 2 }));
    fc.assert(
      fc.property(anyLoad, (one) => {
        const shearN = answer(wallLoadShear.compute(one)).result;
        const tensionN = answer(wallLoadTension.compute(one)).result;
        const weightN = one.massKg * 9.80665;
        expect(shearN * one.anchors).toBeCloseTo(weightN, 6);
        expect(tensionN * 2 * one.leverArmM).toBeCloseTo(weightN * one.eccentricityM, 6);
      }),
    );
  });

  test.each([
    ["no mass", { massKg: 0 }, "massKg"],
    ["as many top anchors as anchors", { topAnchors: 4 }, "topAnchors"],
    ["half an anchor", { anchors: 2.5 }, "anchors"],
    ["no lever arm", { leverArmM: 0 }, "leverArmM"],
    ["not a number", { eccentricityM: Number.NaN }, "eccentricityM"],
  ])("%s is refused", (_case, change, words) => {
    const outcome = wallLoadTension.compute({ ...load, ...change });
    expect(outcome).toMatchObject({ ok: false, reason: "bad-input" });
    expect(outcome.ok ? "" : outcome.problem).toContain(words);
  });
});

describe("anchor interaction (EN 1992-4 T7.3, exponents from memory, as rule data)", () => {
  /** Design loads are then 1000 N of tension and 1000 N of shear. */
  const unitLoad = {
    massKg: 4000 / 9.80665,
    anchors: 4,
    topAnchors: 2,
    eccentricityM: 0.5,
    leverArmM: 1,
    actionFactor: 1,
  };
  const check = (more: Partial<AnchorCheckInput>): Answer =>
    answer(anchorCheck.compute({ ...anchorCheck.example, ...unitLoad, ...more }));

  // Where both shares are s, 2·s^1.5 = 1 at s = 0.5^(2/3), and 2·s² = 1 at s = √0.5.
  test.each([
    ["concrete", 0.5 ** (2 / 3)],
    ["steel", Math.sqrt(0.5)],
  ] as const)("%s: just inside passes, just outside does not", (failure, share) => {
    const at = (each: number) =>
      check({ failure, tensionCapacityN: 1000 / each, shearCapacityN: 1000 / each });
    expect(at(share * 0.999)).toMatchObject({ passes: true });
    expect(at(share * 1.001)).toMatchObject({ passes: false });
    expect(at(share).result).toBeCloseTo(1, 9);
    expect(at(share * 0.9).margin).toBeGreaterThan(0);
  });

  test("half the tension and half the shear: 2·0.5^1.5 = 0.7071 in concrete, 0.5 in steel", () => {
    const half = { tensionCapacityN: 2000, shearCapacityN: 2000 };
    expect(check({ ...half, failure: "concrete" }).result).toBeCloseTo(Math.SQRT1_2, 9);
    expect(check({ ...half, failure: "steel" }).result).toBeCloseTo(0.5, 9);
  });

  test("tension alone over its capacity fails whatever the shear capacity", () => {
    expect(check({ tensionCapacityN: 999, shearCapacityN: 1e6 }).passes).toBe(false);
  });

  test("the factor on the weight multiplies both loads (EN 1990, 1.35 memory)", () => {
    const half = { tensionCapacityN: 2000, shearCapacityN: 2000, failure: "steel" } as const;
    expect(check({ ...half, actionFactor: 1.35 }).result).toBeCloseTo(0.5 * 1.35 ** 2, 9);
  });

  test.each(["tensionCapacityN", "shearCapacityN", "assessment", "actionFactor"] as const)(
    "%s has no default: left out, it is refused",
    (field) => {
      const { [field]: _left, ...rest } = anchorCheck.example;
      const outcome = anchorCheck.compute(rest as AnchorCheckInput);
      expect(outcome).toMatchObject({ ok: false, reason: "bad-input" });
      expect(outcome.ok ? "" : outcome.problem).toContain(field);
    },
  );

  test("an unknown rule is refused with the known ones; the answer names its edition", () => {
    const unknown = anchorCheck.compute({ ...anchorCheck.example, rule: "folklore" });
    expect(unknown).toMatchObject({
      ok: false,
      reason: "not-applicable",
      problem: expect.stringContaining(ANCHOR_RULES[0]!.id),
    });
    expect(check({})).toMatchObject({ source: "EN 1992-4 Table 7.3", edition: "2018" });
  });
});
