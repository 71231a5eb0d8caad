// U of a reading from the accuracy an instrument states: ± (% of reading + % of range + n digits),
// the form in which IEC 61557-1 and data sheets give it (from memory); figures worked out by hand.
import { describe, expect, test } from "vitest";
import { expandedUncertainty } from "../../../src/domain/acceptance/uncertainty.ts";
import type { Accuracy, InstrumentFacts } from "../../../src/domain/plan/context.ts";
import { METER, verdictOn } from "./judged.ts";

const VOLT_RANGE = { max: 600, unit: "V" };
const TENTH = { step: 0.1, unit: "V" };
const meter = (accuracy: Accuracy | undefined, more: Partial<InstrumentFacts> = {}) => ({
  ...METER,
  accuracy,
  range: VOLT_RANGE,
  resolution: TENTH,
  ...more,
});

describe("U of a reading", () => {
  test.each<[Accuracy, number, string, number]>([
    [{ percentOfReading: 0.5 }, 200, "V", 1],
    [{ percentOfReading: 0.5 }, -200, "V", 1],
    [{ percentOfReading: 0.5 }, 0, "V", 0],
    [{ percentOfRange: 0.1 }, 5, "V", 0.6],
    [{ percentOfRange: 0.1 }, 5000, "mV", 600],
    [{ digits: 3 }, 5, "V", 0.3],
    [{ digits: 3 }, 5000, "mV", 300],
    [{ percentOfReading: 0.5, digits: 2 }, 50, "V", 0.45],
    [{ percentOfReading: 0.5, percentOfRange: 0.1, digits: 2 }, 50, "V", 1.05],
    [{ percentOfSetting: 4 }, 6, "N·m", 0.24],
    [{ percentOfReading: 0 }, 5, "V", 0],
  ])("%j of %d %s is %d", (accuracy, value, unit, expected) => {
    expect(expandedUncertainty(meter(accuracy), value, unit)).toBe(expected);
  });

  test("a step of a temperature is a difference: 1.8 °F is 1 °C (NIST SP 811 B.8)", () => {
    const resolution = { step: 1.8, unit: "°F" };
    expect(expandedUncertainty(meter({ digits: 1 }, { resolution }), 20, "°C")).toBe(1);
  });
});

describe("U is not known", () => {
  test.each<[string, InstrumentFacts | undefined, string]>([
    ["without an instrument", undefined, "V"],
    ["without an accuracy", meter(undefined), "V"],
    ["with an accuracy that says nothing", meter({}), "V"],
    [
      "with a share of a range that is not stated",
      meter({ percentOfRange: 1 }, { range: undefined }),
      "V",
    ],
    [
      "with digits of a step that is not stated",
      meter({ digits: 1 }, { resolution: undefined }),
      "V",
    ],
    ["with a range of another quantity", meter({ percentOfRange: 1 }), "Ω"],
    ["with a step of another quantity", meter({ digits: 1 }), "Ω"],
    [
      "with a range in a unit that is none",
      meter({ percentOfRange: 1 }, { range: { max: 1, unit: "x" } }),
      "V",
    ],
  ])("%s", (_what, instrument, unit) => {
    expect(expandedUncertainty(instrument, 5, unit)).toBeUndefined();
  });
});

describe("insulation to ±30 % of the reading (IEC 61557-2, from memory), guarded", () => {
  // With the share taken of the measured value, 0.7 R ≥ 1 MΩ, so R must be at least 1.4286 MΩ.
  test.each([
    [1.429, "passed"],
    [1.428, "guard-band"],
    [1.3, "guard-band"],
    [1, "guard-band"],
    [0.999, "failed"],
  ])("%d MΩ: %s", (number, code) => {
    const tester = {
      ...METER,
      class: "insulation-tester",
      accuracy: { percentOfReading: 30 },
    };
    const verdict = verdictOn(
      { kind: "measure", unit: "MΩ", limit: { min: 1 }, decisionRule: "guarded" },
      { number, unit: "MΩ" },
      { answer: { instrumentId: "meter" }, context: { instruments: [tester] } },
    );
    expect(verdict.code).toBe(code);
  });
});
