import { describe, expect, it } from "vitest";
import { z } from "zod";
import { CALCULATIONS } from "../../../src/domain/electrical/catalogue.ts";
import { evaluate } from "./arithmetic.ts";
import { sameFormula } from "./formula-shape.ts";
import { answered } from "./outcomes.ts";

describe("the catalogue of calculations", () => {
  it("holds no name twice", () => {
    const names = CALCULATIONS.map((calculation) => calculation.name);
    expect(names.length).toBeGreaterThan(40);
    expect(new Set(names).size).toBe(names.length);
  });

  it.each(CALCULATIONS)(
    "$name is kebab-case, titled, and its example answers with its working",
    ({ name, title, example }) => {
      expect(name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      expect(title.length).toBeGreaterThan(5);
      const answer = answered(name, example);
      expect(answer.steps.length).toBeGreaterThanOrEqual(1);
      expect(answer.source).not.toBe("");
      expect(answer.edition).not.toBe("");
      expect(answer.caution).toContain("local codes and licensed practice prevail");
      expect(Number.isFinite(answer.result)).toBe(true);
    },
  );

  it.each(CALCULATIONS)(
    "$name gives as its result the result of one of its own steps",
    ({ name, example }) => {
      const answer = answered(name, example);
      const match = answer.steps.find((step) => {
        return step.result === answer.result && step.unit === answer.unit;
      });
      expect(match).toBeDefined();
    },
  );

  it.each(CALCULATIONS)("$name prints working that a calculator confirms", ({ name, example }) => {
    for (const step of answered(name, example).steps) {
      if (step.tableRow !== undefined) {
        expect(step.source).toBeTruthy();
        continue;
      }
      const again = evaluate(step.substituted);
      expect(Math.abs(again - step.result)).toBeLessThanOrEqual(1e-5 * Math.abs(step.result));
    }
  });

  it.each(CALCULATIONS)("$name puts its numbers into the formula it prints", (calculation) => {
    const steps = answered(calculation.name, calculation.example).steps;
    // A sum over readings, a bare reading, √3 and |U| have no term-by-term counterpart.
    const irregular = /Σ|as read|√3|\|U\|/;
    for (const { formula, substituted, tableRow } of steps) {
      if (tableRow !== undefined || irregular.test(formula)) continue;
      expect(sameFormula(formula, substituted), `${formula} | ${substituted}`).toBe(true);
    }
  });

  it("would notice numbers put into another formula", () => {
    expect(sameFormula("U / Z", "230 / 0.25")).toBe(true);
    expect(sameFormula("U × Z", "230 / 0.25")).toBe(false);
    expect(sameFormula("R × (1 + 0.004 × (t − 20))", "7 × (1 + 0.004 × (70 − 20))")).toBe(true);
    expect(sameFormula("R × (1 + 0.004 × (t − 25))", "7 × (1 + 0.004 × (70 − 20))")).toBe(false);
    expect(sameFormula("1 + β/100", "1 + (−0.27)/100")).toBe(true);
  });

  it.each(CALCULATIONS)(
    "$name describes every input field and takes no other",
    ({ input, example }) => {
      const schema = z.toJSONSchema(input, { io: "input" }) as {
        properties: Record<string, { description?: string }>;
        additionalProperties?: boolean;
      };
      expect(schema.additionalProperties).toBe(false);
      for (const [field, property] of Object.entries(schema.properties)) {
        expect(property.description, field).toMatch(/\S{2,}/);
      }
      expect(input.safeParse({ ...example, surprise: 1 }).success).toBe(false);
    },
  );

  it.each(CALCULATIONS)(
    "$name has an example that its own schema leaves unchanged",
    ({ input, example }) => {
      expect(input.parse(example)).toEqual(example);
    },
  );
});
