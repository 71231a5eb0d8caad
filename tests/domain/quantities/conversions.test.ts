import { describe, expect, test } from "vitest";
import {
  convert,
  convertDecimal,
  convertDifference,
  fromSi,
  toSi,
  tryConvert,
} from "../../../src/domain/quantities/convert.ts";
import type { Unit } from "../../../src/domain/quantities/units.ts";

type Row = readonly [value: number, from: Unit, to: Unit, expected: number, decimals: number];

describe("conversions agree with NIST SP 811 Appendix B (values from memory, recomputed)", () => {
  test.each<Row>([
    [10, "N·m", "lbf·ft", 7.375621, 6],
    [10, "N·m", "lbf·in", 88.507458, 6],
    [25, "N·m", "lbf·ft", 18.439054, 6],
    [100, "lbf·in", "N·m", 11.298483, 6],
    [1, "psi", "kPa", 6.894757, 6],
    [1, "lb", "kg", 0.4535924, 7],
    [1, "lbf·ft", "N·m", 1.355818, 6],
    [1, "lbf·in", "N·m", 0.1129848, 7],
    [1, "kPa", "psi", 0.1450377, 7],
    [1, "kg", "lb", 2.204623, 6],
  ])("%d %s in %s/%s is %d to %d decimals", (value, from, to, expected, decimals) => {
    expect(convert(value, from, to)).toBeCloseTo(expected, decimals);
  });

  test.each<readonly [string, Unit, Unit, string]>([
    ["1", "lbf·ft", "N·m", "1.3558179483314004"],
    ["1", "lbf·in", "N·m", "0.1129848290276167"],
    ["1", "in", "mm", "25.4"],
    ["1", "ft", "mm", "304.8"],
    ["5280", "ft", "m", "1609.344"],
    ["1", "lb", "kg", "0.45359237"],
    ["3", "ft", "mm", "914.4"],
    ["1", "lbf·ft", "lbf·in", "12"],
    ["1", "kWh", "Wh", "1000"],
    ["-40", "°C", "°F", "-40"],
    ["25", "°C", "°F", "77"],
    ["0", "°C", "K", "273.15"],
    ["0", "K", "°F", "-459.67"],
    ["32", "°F", "°C", "0"],
    ["5", "%", "%", "5"],
    ["0.5", "MΩ", "mΩ", "500000000"],
    ["300", "ms", "min", "0.005"],
  ])("%s %s is exactly %s/%s: NIST SP 811 B.8, SI Brochure", (text, from, to, expected) => {
    expect(convertDecimal(text, from, to)).toMatchObject({ ok: true, text: expected });
    expect(convert(Number(text), from, to)).toBe(Number(expected));
  });

  // The page's seven-digit value of psi comes from lbf/in²; the exact quotient does not end.
  test("a pound-force per square inch is the exact quotient, not a rounded decimal", () => {
    const converted = convertDecimal("1", "psi", "kPa");
    expect(converted).toMatchObject({ ok: true, value: 6.894757293168361 });
    expect(converted.ok && converted.text).toMatch(/^\d+\/\d+$/);
  });

  test.each<readonly [number, Unit, number]>([
    [1, "kWh", 3.6e6],
    [1, "Wh", 3600],
    [1, "Ah", 3600],
    [1, "min", 60],
    [16, "mm²", 0.000016],
    [5, "%", 0.05],
    [1.5, "MΩ", 1_500_000],
    [298.15, "K", 25],
    [77, "°F", 25],
    [2.5, "kPa", 2500],
  ])(
    "%d %s is stored as %d in SI and comes back (SI Brochure tables 4 and 8)",
    (value, unit, si) => {
      expect(toSi(value, unit)).toBe(si);
      expect(fromSi(si, unit)).toBe(value);
    },
  );
});

describe("a temperature difference has no zero point (NIST SP 811 B.8, interval)", () => {
  test.each<readonly [number, Unit, Unit, number]>([
    [10, "K", "°F", 18],
    [10, "°C", "°F", 18],
    [18, "°F", "K", 10],
    [10, "K", "°C", 10],
    [-5, "°C", "°F", -9],
    [0, "K", "°F", 0],
  ])("a difference of %d %s is %s/%s %d", (value, from, to, expected) => {
    expect(convertDifference(value, from, to)).toBe(expected);
  });

  test("a temperature of 10 K is not a difference of 10 K", () => {
    expect(convert(10, "K", "°F")).toBe(-441.67);
  });
});

describe("what cannot be converted", () => {
  test("different quantities are a bug in convert and a sentence in tryConvert", () => {
    expect(() => convert(1, "N·m", "mm")).toThrow(RangeError);
    expect(() => convertDifference(1, "V", "A")).toThrow(RangeError);
    expect(tryConvert(1, "N·m", "mm")).toEqual({
      ok: false,
      problem: expect.stringContaining("torque"),
    });
  });

  test("an unknown unit is named in the refusal", () => {
    expect(tryConvert(1, "furlong", "m")).toEqual({
      ok: false,
      problem: '"furlong" is not a unit this tool knows.',
    });
    expect(tryConvert(1, "m", "toString").ok).toBe(false);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])("%d is refused", (value) => {
    expect(() => convert(value, "V", "mV")).toThrow(RangeError);
    expect(tryConvert(value, "V", "mV").ok).toBe(false);
  });

  test("a result beyond the largest double is refused, not shown as infinite", () => {
    expect(convert(1e308, "MΩ", "mΩ")).toBe(Number.POSITIVE_INFINITY);
    expect(tryConvert(1e308, "MΩ", "mΩ").ok).toBe(false);
    expect(tryConvert(1, "MΩ", "mΩ")).toEqual({ ok: true, value: 1e9 });
  });

  test.each(["", ".", "1e2000", "0x10", "1/0", "1,5", " 1", "NaN"])(
    "%j is no decimal and is refused by convertDecimal",
    (text) => {
      expect(convertDecimal(text, "V", "mV").ok).toBe(false);
    },
  );

  test("a zero is never negative", () => {
    expect(convert(-0, "V", "V")).toBe(0);
    expect(convert(-0, "V", "mV")).toBe(0);
  });
});
