import { describe, expect, test } from "vitest";
import type { Calculation } from "../../../src/domain/mechanical/calculation.ts";
import { MECHANICAL_CALCULATIONS } from "../../../src/domain/mechanical/catalogue.ts";

const calculations = MECHANICAL_CALCULATIONS as readonly unknown[] as readonly Calculation<never>[];

describe("every mechanical calculation", () => {
  test("has a name of its own", () => {
    expect(new Set(calculations.map(({ name }) => name)).size).toBe(calculations.length);
  });

  test.each(calculations.map((one) => [one.name, one] as const))(
    "%s shows its working, source and caution for its example",
    (_name, one) => {
      const outcome = one.compute(one.example);
      if (!outcome.ok) throw new Error(outcome.problem);
      expect(outcome.steps.map((step) => step.result)).toContain(outcome.result);
      for (const step of outcome.steps) {
        expect(Number.isFinite(step.result)).toBe(true);
        expect(step.substituted).toMatch(/\d/);
        expect(step.unit.length).toBeGreaterThan(0);
      }
      expect(outcome.source.length).toBeGreaterThan(0);
      expect(outcome.edition.length).toBeGreaterThan(0);
      expect(outcome.caution).toMatch(/prevail|govern/);
    },
  );

  // The substituted formula is what a reader recomputes by hand: let the language recompute it.
  test.each(calculations.map((one) => [one.name, one] as const))(
    "%s: each substituted formula gives its result",
    (_name, one) => {
      const outcome = one.compute(one.example);
      for (const step of outcome.ok ? outcome.steps : []) {
        const script = step.substituted
          .replaceAll("π", "Math.PI")
          .replaceAll("√", "Math.sqrt")
          .replaceAll("·", "*")
          .replaceAll("²", "**2")
          .replaceAll("^", "**");
        expect(script).toMatch(/^[\d\s.()*/+e-]+$|Math\.(PI|sqrt)/);
        const value: unknown = new Function(`return (${script});`)();
        expect(Number(value) / step.result).toBeCloseTo(1, 4);
      }
    },
  );

  test.each(calculations.map((one) => [one.name, one] as const))(
    "%s refuses an empty input and a field that nobody knows",
    (_name, one) => {
      expect(one.compute({} as never)).toMatchObject({ ok: false, reason: "bad-input" });
      const stray = { ...(one.example as object), colour: "blue" } as never;
      expect(one.compute(stray)).toMatchObject({ ok: false, reason: "bad-input" });
    },
  );
});
