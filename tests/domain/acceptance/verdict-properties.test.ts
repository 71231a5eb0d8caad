// Properties of single verdicts over random limits, readings, units and instruments.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { convertDecimal } from "../../../src/domain/quantities/convert.ts";
import type { Unit } from "../../../src/domain/quantities/units.ts";
import type { Draft } from "../plan/small-plan.ts";
import { METER, verdictOn } from "./judged.ts";

const FAMILIES: Unit[][] = [
  ["V", "mV"],
  ["A", "mA", "kA"],
  ["Ω", "mΩ", "kΩ", "MΩ"],
  ["s", "ms", "min"],
  ["mm", "m", "in", "ft"],
  ["N·m", "lbf·ft", "lbf·in"],
  ["kPa", "psi"],
  ["°C", "°F", "K"],
];

const hundredths = (most: number) => fc.integer({ min: 0, max: most * 100 }).map((n) => n / 100);
const rule = fc.constantFrom("simple", "guarded", "four-way");
/** Limits whose ends are as coarse as the readings, so that readings often fall on an end. */
const limit: fc.Arbitrary<Draft> = fc.oneof(
  fc.record({ min: hundredths(3) }),
  fc.record({ above: hundredths(3) }),
  fc.record({ max: hundredths(3) }),
  fc.record({ below: hundredths(3) }),
  fc.record({
    nominal: hundredths(3),
    tolerance: fc.oneof(
      fc.record({ absolute: hundredths(1) }),
      fc.record({ percent: fc.integer({ min: 0, max: 20 }) }),
    ),
  }),
);
const accuracy = fc.record({
  percentOfReading: fc.integer({ min: 0, max: 30 }),
  digits: fc.integer({ min: 0, max: 3 }),
});

interface Case {
  unit: Unit;
  limit: Draft;
  rule: string;
  accuracy: { percentOfReading: number; digits: number };
}

function codeOf(
  { unit, limit: wanted, rule: decisionRule, accuracy: stated }: Case,
  value: object,
) {
  const meter = { ...METER, accuracy: stated, resolution: { step: 0.01, unit } };
  return verdictOn({ kind: "measure", unit, limit: wanted, decisionRule }, value, {
    answer: { instrumentId: "meter" },
    context: { instruments: [meter] },
  }).code;
}

describe("over random limits and instruments", () => {
  test("the unit in which a reading is typed never decides its verdict", () => {
    let compared = 0;
    fc.assert(
      fc.property(
        fc
          .constantFrom(...FAMILIES)
          .chain((units) =>
            fc.record({ unit: fc.constantFrom(...units), typed: fc.constantFrom(...units) }),
          ),
        fc.record({ limit, rule, accuracy }),
        hundredths(3),
        ({ unit, typed }, rest, number) => {
          const exact = convertDecimal(String(number), unit, typed);
          if (!exact.ok || exact.text.includes("/") || exact.text.length > 16) return;
          compared += 1;
          const given = codeOf({ unit, ...rest }, { number: exact.text, unit: typed });
          expect(given).toBe(codeOf({ unit, ...rest }, { number, unit }));
        },
      ),
      { numRuns: 1500 },
    );
    expect(compared).toBeGreaterThan(500);
  });

  test("a reading farther on the right side of a one-sided limit never fares worse", () => {
    const rank = ["failed", "conditional-fail", "guard-band", "conditional-pass", "passed"];
    fc.assert(
      fc.property(
        fc.record({
          unit: fc.constant<Unit>("V"),
          limit: fc.oneof(fc.record({ min: hundredths(3) }), fc.record({ above: hundredths(3) })),
          rule,
          accuracy,
        }),
        hundredths(4),
        hundredths(4),
        (drawn, number, farther) => {
          const near = rank.indexOf(codeOf(drawn, { number, unit: "V" }));
          const far = rank.indexOf(codeOf(drawn, { number: number + farther, unit: "V" }));
          expect(Math.min(near, far)).toBeGreaterThanOrEqual(0);
          expect(far).toBeGreaterThanOrEqual(near);
        },
      ),
      { numRuns: 1500 },
    );
  });

  test("a wider limit never turns a pass into a failure", () => {
    fc.assert(
      fc.property(
        hundredths(3),
        hundredths(1),
        hundredths(1),
        hundredths(3),
        rule,
        accuracy,
        (nominal, tolerance, wider, number, decisionRule, stated) => {
          const within = (absolute: number) =>
            codeOf(
              {
                unit: "V",
                limit: { nominal, tolerance: { absolute } },
                rule: decisionRule,
                accuracy: stated,
              },
              { number, unit: "V" },
            );
          if (within(tolerance) === "passed") expect(within(tolerance + wider)).toBe("passed");
        },
      ),
      { numRuns: 1500 },
    );
  });

  test("a guarded verdict that passes passes under every other rule", () => {
    fc.assert(
      fc.property(fc.record({ limit, accuracy }), hundredths(4), (drawn, number) => {
        const by = (name: string) =>
          codeOf({ unit: "V", rule: name, ...drawn }, { number, unit: "V" });
        const isPassed = by("guarded") === "passed";
        expect(by("four-way") === "passed").toBe(isPassed);
        if (isPassed) expect(by("simple")).toBe("passed");
      }),
      { numRuns: 1500 },
    );
  });
});
