import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  coldCoefficientVocV,
  coldTableVocV,
  modulesWithin,
} from "../../../src/domain/electrical/pv-string.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

describe("cold voltage by the table (NEC Table 690.7(A), from memory)", () => {
  it.each([
    [24, 1.02],
    [20, 1.02],
    [19, 1.04],
    [15, 1.04],
    [14, 1.06],
    [10, 1.06],
    [9, 1.08],
    [5, 1.08],
    [4, 1.1],
    [0, 1.1],
    [-1, 1.12],
    [-5, 1.12],
    [-6, 1.14],
    [-10, 1.14],
    [-11, 1.16],
    [-15, 1.16],
    [-16, 1.18],
    [-20, 1.18],
    [-21, 1.2],
    [-25, 1.2],
    [-26, 1.21],
    [-30, 1.21],
    [-31, 1.23],
    [-35, 1.23],
    [-36, 1.25],
    [-40, 1.25],
  ])("at %s °C takes the factor %s", (lowestC, factor) => {
    expect(numberOf(coldTableVocV(100, lowestC))).toBeCloseTo(100 * factor, 9);
  });

  it("between two rows takes the colder one: −10.5 °C counts as −11", () => {
    expect(numberOf(coldTableVocV(100, -10.5))).toBe(116);
    expect(numberOf(coldTableVocV(100, 19.5))).toBe(104);
  });

  it("is refused above 24 °C and below −40 °C", () => {
    expect(reasonOf(coldTableVocV(100, 24.1))).toBe("out-of-range");
    expect(reasonOf(coldTableVocV(100, -40.1))).toBe("out-of-range");
  });
});

describe("cold voltage by the coefficient (NEC 690.7(A)(1), computed)", () => {
  it.each([
    [1, 54.178],
    [11, 595.96],
    [12, 650.13],
  ])("of %s modules of 49.5 V, −0.27 %/K, at −10 °C is %s V", (modules, volts) => {
    const cold = numberOf(coldCoefficientVocV(49.5, -0.27, -10, modules));
    expect(Math.abs(cold - volts)).toBeLessThanOrEqual(0.0051);
  });

  it("is refused for a lowest temperature above 25 °C and for a positive coefficient", () => {
    expect(reasonOf(coldCoefficientVocV(49.5, -0.27, 25))).toBe("answered");
    expect(reasonOf(coldCoefficientVocV(49.5, -0.27, 25.1))).toBe("not-applicable");
    expect(reasonOf(coldCoefficientVocV(49.5, 0.27, -10))).toBe("bad-input");
  });
});

describe("both cold methods side by side (NEC 690.7(A), computed)", () => {
  const module = { moduleVocV: 49.5, betaPercentPerK: -0.27, lowestC: -10 };

  it("allow 11 modules at 600 V by coefficient and 10 by table; 10 is the answer", () => {
    const answer = answered("pv-max-series-modules", { ...module, limitV: 600 });
    expect(answer.steps.map((step) => step.result)).toEqual([11, 10]);
    expect(answer.result).toBe(10);
  });

  it.each([
    [10, 564.3, true],
    [11, 620.73, false],
  ])("give %s modules %s V by the table, within 600 V: %s", (modules, volts, passes) => {
    const answer = answered("pv-cold-voltage", { ...module, modules, limitV: 600 });
    expect(answer.result).toBeCloseTo(volts, 2);
    expect(answer.passes).toBe(passes);
    expect(answer.steps).toHaveLength(3);
  });

  it("fall back on the coefficient below −40 °C and say why", () => {
    const answer = answered("pv-cold-voltage", { ...module, lowestC: -45, modules: 10 });
    expect(answer.steps).toHaveLength(1);
    expect(answer.notes.join(" ")).toContain("does not reach −45 °C");
  });

  it("refuse when not even one module fits", () => {
    const refusal = refused("pv-max-series-modules", { ...module, limitV: 50 });
    expect(refusal.reason).toBe("not-applicable");
  });

  it("count a module that meets the limit exactly", () => {
    expect(modulesWithin(600, 60)).toBe(10);
    expect(modulesWithin(599.9, 60)).toBe(9);
  });

  it("never allow so many that the limit is passed, nor one fewer than possible", () => {
    const limits = fc.integer({ min: 100, max: 1500 });
    const volts = fc.double({ min: 20, max: 90, noNaN: true });
    fc.assert(
      fc.property(limits, volts, (limitV, moduleV) => {
        const modules = modulesWithin(limitV, moduleV);
        expect(modules * moduleV).toBeLessThanOrEqual(limitV * (1 + 1e-9));
        expect((modules + 1) * moduleV).toBeGreaterThan(limitV * (1 - 1e-9));
      }),
    );
  });
});
