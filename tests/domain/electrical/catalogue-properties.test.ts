import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import type { Outcome } from "../../../src/domain/electrical/calculation.ts";
import { CALCULATIONS } from "../../../src/domain/electrical/catalogue.ts";
import { evaluate, largestOperand } from "./arithmetic.ts";

interface FieldSchema {
  type?: string;
  enum?: string[];
  const?: number;
  anyOf?: FieldSchema[];
  items?: FieldSchema;
  minItems?: number;
  minimum?: number;
  exclusiveMinimum?: number;
  maximum?: number;
  properties?: Record<string, FieldSchema>;
  required?: string[];
}

const GAUGES = ["4/0", "1/0", "12", "36", "41", "0", "x"];
const AREAS = [1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70];

/** Numbers as people type them: three or four digits, spread over the field's range. */
function numberIn(schema: FieldSchema): fc.Arbitrary<number> {
  const low = schema.minimum ?? schema.exclusiveMinimum ?? 0;
  const high = schema.maximum ?? 1000;
  if (schema.type === "integer") return fc.integer({ min: low, max: high });
  const anywhere = fc
    .integer({ min: 0, max: 1000 })
    .map((part) => low + ((high - low) * part) / 1000);
  const ordinary = fc.integer({ min: 1, max: 9999 }).map((part) => part / 10);
  return fc
    .oneof(anywhere, ordinary, fc.constantFrom(...AREAS))
    .map((value) => Number(value.toPrecision(4)))
    .filter((value) => value >= low && value <= high && value !== schema.exclusiveMinimum);
}

function arbitraryFor(schema: FieldSchema): fc.Arbitrary<unknown> {
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.anyOf) return fc.oneof(...schema.anyOf.map(arbitraryFor));
  if (schema.enum) return fc.constantFrom(...schema.enum);
  if (schema.type === "boolean") return fc.boolean();
  if (schema.type === "string") return fc.constantFrom(...GAUGES);
  if (schema.type === "array") {
    const item = arbitraryFor(schema.items as FieldSchema);
    return fc.array(item, { minLength: schema.minItems ?? 0, maxLength: 6 });
  }
  if (schema.type === "object") {
    const fields = Object.entries(schema.properties ?? {});
    const models = Object.fromEntries(fields.map(([key, field]) => [key, arbitraryFor(field)]));
    return fc.record(models, { requiredKeys: (schema.required ?? []) as never[] });
  }
  return numberIn(schema);
}

function checkOutcome(outcome: Outcome): void {
  if (!outcome.ok) {
    expect(outcome.problem).toMatch(/^[A-Z0-9−-].{30,}\.$/s);
    return;
  }
  expect(outcome.passes === undefined).toBe(outcome.margin === undefined);
  if (outcome.margin !== undefined) expect(outcome.passes).toBe(outcome.margin >= 0);
  for (const step of outcome.steps) {
    expect(Number.isFinite(step.result), step.label).toBe(true);
    if (step.tableRow !== undefined) continue;
    const error = Math.abs(evaluate(step.substituted) - step.result);
    // Six printed digits: a count may tip over at a whole number, a difference may cancel.
    const slack = step.formula.startsWith("floor") ? 1 : 0;
    const cancelled = step.substituted.includes("−") ? 1e-3 * largestOperand(step.substituted) : 0;
    expect(error, step.substituted).toBeLessThanOrEqual(
      1e-4 * Math.abs(step.result) + cancelled + slack + 1e-9,
    );
  }
}

describe("any input the schema lets in", () => {
  it.each(CALCULATIONS)(
    "makes $name answer with sound working or refuse with a sentence",
    ({ input, compute }) => {
      const schema = z.toJSONSchema(input, { io: "input" }) as FieldSchema;
      fc.assert(
        fc.property(arbitraryFor(schema), (raw) => checkOutcome(compute(input.parse(raw)))),
        { numRuns: 300 },
      );
    },
  );
});
