import { Environment } from "@marcbachmann/cel-js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EXPRESSION_FUNCTIONS } from "../../../src/domain/electrical/expression-functions.ts";

function environment(): Environment {
  const engine = new Environment();
  for (const { signature, call } of EXPRESSION_FUNCTIONS) engine.registerFunction(signature, call);
  return engine;
}

function literal(argument: unknown): string {
  if (typeof argument === "string") return JSON.stringify(argument);
  if (Array.isArray(argument)) return `[${argument.map(literal).join(", ")}]`;
  const text = String(argument);
  return text.includes(".") ? text : `${text}.0`;
}

describe("functions that a plan's expressions may call", () => {
  it("have unique names and include the ones plans rely on", () => {
    const names = EXPRESSION_FUNCTIONS.map((one) => one.name);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(
      expect.arrayContaining([
        "max_zs",
        "rcd_max_trip_ms",
        "insulation_min_mohm",
        "conductor_resistance_ohm",
        "voltage_drop_v",
        "voc_expected_v",
        "voc_cold_v",
        "adiabatic_min_mm2",
        "parallel_ohm",
        "bonding_max_ohm",
        "ra_max_ohm",
      ]),
    );
  });

  it.each(EXPRESSION_FUNCTIONS)("$name evaluates in CEL by its signature", (offered) => {
    const expression = `${offered.name}(${offered.example.map(literal).join(", ")})`;
    const engine = environment();
    expect(engine.check(expression)).toMatchObject({ valid: true, type: "double" });
    expect(engine.evaluate(expression)).toBe(offered.call(...offered.example));
    expect(offered.problemWhen.length).toBeGreaterThan(10);
  });

  it.each([
    ["max_zs('B', 32.0)", 1.365625],
    ["max_zs_for('eighty-percent', 'B', 32.0, 230.0)", 1.0925],
    ["rcd_max_trip_ms('S', 5.0)", 150],
    ["insulation_min_mohm('selv-pelv', 48.0)", 0.5],
    ["parallel_ohm([2.0, 5.0, 10.0])", 1.25],
    ["voltage_drop_dc_v(5.0, 4.0, 30.0, 10.0, 20.0)", 2.97],
    ["ra_max_ohm(500.0)", 100],
    ["fault_current_a(230.0, 0.25)", 920],
  ])("%s is %s (check values of the numeric functions)", (expression, value) => {
    expect(environment().evaluate(expression)).toBe(value);
  });

  it("let a reading of exactly the limit meet it inside an expression", () => {
    const limit = "zs <= max_zs_for('eighty-percent', 'B', 32.0, 230.0)";
    const engine = environment().registerVariable("zs", "double");
    expect(engine.evaluate(limit, { zs: 1.0925 })).toBe(true);
    expect(engine.evaluate(limit, { zs: 1.0926 })).toBe(false);
  });

  it.each([
    ["max_zs", ["A", 32]],
    ["max_zs", ["B", 126]],
    ["rcd_max_trip_ms", ["general", 0.5]],
    ["insulation_min_mohm", ["selv-pelv", 60]],
    ["conductor_resistance_ohm", [2, 3, 10, 20]],
    ["voltage_drop_v", [6, 20, 32, 1.1]],
    ["voc_cold_v", [49.5, -0.27, 30, 10]],
    ["voc_cold_table_v", [49.5, -41, 10]],
    ["adiabatic_min_mm2", [1000, 5.1, "copper", "pvc", "core-in-cable"]],
    ["parallel_ohm", [[]]],
    ["bonding_max_ohm", [0]],
    ["ra_max_ohm", [5]],
  ])("%s throws a RangeError with a sentence for %j", (name, args) => {
    const offered = EXPRESSION_FUNCTIONS.find((one) => one.name === name);
    const call = () => offered?.call(...args);
    expect(call).toThrow(RangeError);
    expect(call).toThrow(/^[A-Z].{30,}\.$/s);
  });

  it("return a finite number or throw a RangeError, whatever numbers come in", () => {
    const number = fc.oneof(fc.double(), fc.constantFrom(0, -1, Number.NaN, Infinity, 1e308));
    fc.assert(
      fc.property(
        fc.constantFrom(...EXPRESSION_FUNCTIONS),
        fc.array(number, { minLength: 6, maxLength: 6 }),
        fc.nat(),
        (offered, numbers, seed) => {
          const args = offered.example.map((argument, index) => {
            if (typeof argument === "number")
              return (seed >> index) % 2 ? argument : numbers[index];
            return Array.isArray(argument) ? [numbers[index], 2] : argument;
          });
          try {
            expect(Number.isFinite(offered.call(...args))).toBe(true);
          } catch (problem) {
            expect(problem).toBeInstanceOf(RangeError);
          }
        },
      ),
      { numRuns: 1000 },
    );
  });
});
