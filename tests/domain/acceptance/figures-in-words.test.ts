// How figures are written: with U+2212 for minus and a space before the unit (SI Brochure 5.4.3),
// and no more digits than tell a limit from a reading (our choice).
import { describe, expect, test } from "vitest";
import { describeInterval, withUnit } from "../../../src/domain/acceptance/interval.ts";
import { normalBelow } from "../../../src/domain/acceptance/normal.ts";
import { contextOf, METER, verdictOn } from "./judged.ts";

describe("a number is written", () => {
  test.each<[number, string, string]>([
    [38, "V", "38 V"],
    [-5, "V", "−5 V"],
    [4, "", "4"],
    [-4, "", "−4"],
    [1234567890.5, "V", "1234567890.5 V"],
    [1234567890.25, "V", "1234567900 V"],
    [1 / 3, "Ω", "0.33333333 Ω"],
    [-1 / 3, "Ω", "−0.33333333 Ω"],
    [1e-7, "MΩ", "0.0000001 MΩ"],
    [-1e-7, "MΩ", "−0.0000001 MΩ"],
    [1e-7, "", "1e-7"],
    [1e-7, "per blink", "1e-7 per blink"],
  ])("%d %s as %s", (value, unit, told) => {
    expect(withUnit(value, unit)).toBe(told);
  });
});

describe("an interval is told", () => {
  const both = { lowIncluded: true, highIncluded: true };
  test.each([
    [{ ...both, low: 38 }, "at least 38 V"],
    [{ ...both, low: 38, lowIncluded: false }, "more than 38 V"],
    [{ ...both, high: 4 }, "at most 4 V"],
    [{ ...both, high: 4, highIncluded: false }, "less than 4 V"],
    [{ ...both, low: 3, high: 4 }, "at least 3 V and at most 4 V"],
    [{ ...both, low: 3, high: 3 }, "exactly 3 V"],
    [{ ...both, low: 5, high: 7, nominal: { value: 6, tolerance: 1 } }, "6 V ± 1 V"],
    [{ ...both, low: 5.4, high: 6.6, nominal: { value: 6, tolerance: "10 %" } }, "6 V ± 10 %"],
    [{ ...both, low: 6, high: 6, nominal: { value: 6, tolerance: "0 %" } }, "exactly 6 V"],
  ])("%j: %s", (interval, told) => {
    expect(describeInterval(interval, "V")).toBe(told);
  });
});

describe("U is told beside a reading near its limit", () => {
  const read = (number: unknown, percentOfReading: number, limit: object = { min: 38 }) => {
    const instruments = [{ ...METER, accuracy: { percentOfReading } }];
    return verdictOn(
      { kind: "measure", unit: "V", limit, decisionRule: "four-way" },
      { number, unit: "V" },
      { answer: { instrumentId: "meter" }, context: contextOf({ instruments }) },
    );
  };

  test("to two digits", () => {
    expect(read(38.1, 0.5).sentence).toBe(
      "Read 38.1 V ± 0.19 V; met, near the limit: needed at least 38 V.",
    );
  });

  test("and kept with the reading in full, with the risk that it lies outside", () => {
    const { reading, risk } = read(38.1, 0.5);
    expect(reading).toEqual({ number: 38.1, unit: "V", uncertainty: 0.1905 });
    // (38.1 V − 38 V) / 0.09525 V is 1.0499 standard deviations: JCGM 106:2012, 7.4.
    expect(risk).toBeCloseTo(0.1469, 4);
  });

  test("and not at all where the instrument has no error", () => {
    expect(read(38, 0, { above: 38 }).sentence).toBe(
      "Read 38 V; not met, near the limit: needed more than 38 V.",
    );
  });

  test("but an instrument without any error leaves no risk to tell", () => {
    expect(read(38, 0)).not.toHaveProperty("risk");
    expect(read(38, 0).reading).toEqual({ number: 38, unit: "V", uncertainty: 0 });
  });

  test("and is left out where it is not known, or for a count", () => {
    const plain = { kind: "measure", unit: "V", limit: { min: 38 } };
    expect(verdictOn(plain, { number: 39, unit: "V" }).reading).toStrictEqual({
      ...{ number: 39, unit: "V" },
    });
    const counted = { kind: "count", limit: { min: 4 } };
    const more = { answer: { instrumentId: "meter" } };
    expect(verdictOn(counted, { count: 4 }, more).reading).toStrictEqual({ number: 4, unit: "" });
  });

  test("a count has none, whatever the plan's rule", () => {
    const counted = { kind: "count", limit: { min: 4 } };
    const more = { plan: { decisionRule: "guarded" } };
    expect(verdictOn(counted, { count: 4 }, more).code).toBe("passed");
    expect(verdictOn(counted, { count: 3 }, more).code).toBe("failed");
  });
});

describe("the normal distribution", () => {
  test("has no value for what is no number", () => {
    expect(normalBelow(Number.NaN)).toBeNaN();
  });

  // Tables of the standard normal: NIST/SEMATECH e-Handbook 1.3.6.7.1.
  test.each([
    [0, 0.5],
    [1, 0.84134],
    [-1, 0.15866],
    [3.5, 0.99977],
    [-3.5, 0.00023],
    [4, 0.99997],
  ])("at %d is %d", (z, probability) => {
    expect(normalBelow(z)).toBeCloseTo(probability, 5);
  });
});
