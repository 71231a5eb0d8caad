import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseQuantity } from "../../../src/domain/quantities/parse-quantity.ts";
import { UNIT_SYMBOLS, type Unit } from "../../../src/domain/quantities/units.ts";

const NO_BREAK = "\u00a0";
const NARROW = "\u202f";

describe("readings as people type them (ISO 80000-1 7.3; forms: common practice)", () => {
  test.each<readonly [string, string, Unit | undefined]>([
    ["2.75 Nm", "2.75", "N·m"],
    ["2.75Nm", "2.75", "N·m"],
    ["24 lbf·in", "24", "lbf·in"],
    ["1,5 MΩ", "1.5", "MΩ"],
    ["0.35 mOhm", "0.35", "mΩ"],
    ["12'6\"", "150", "in"],
    ["12' 6 1/2\"", "150.5", "in"],
    ["5 ft 6 in", "66", "in"],
    ["12'0\"", "144", "in"],
    ["12'11.5\"", "155.5", "in"],
    ["6'", "6", "ft"],
    ["1 1/2 in", "1.5", "in"],
    ["3/8 in", "0.375", "in"],
    ["1½ in", "1.5", "in"],
    ['1 63/64"', "1.984375", "in"],
    ["\u22125 °C", "-5", "°C"],
    ["\u20135 °C", "-5", "°C"],
    ["- 5 °C", "-5", "°C"],
    ["+5 V", "5", "V"],
    ["230 VAC", "230", "V"],
    ["51.2 V d.c.", "51.2", "V"],
    [`24${NO_BREAK}V`, "24", "V"],
    [`1${NO_BREAK}500 V`, "1500", "V"],
    [`1${NARROW}500,25 V`, "1500.25", "V"],
    [`1${NARROW}500,250 V`, "1500.250", "V"],
    [`12${NARROW}345${NARROW}678 Ω`, "12345678", "Ω"],
    ["1.50", "1.50", undefined],
    [".5 V", "0.5", "V"],
    [",5 V", "0.5", "V"],
    ["5. V", "5", "V"],
    ["007 V", "7", "V"],
    ["1.500 MΩ", "1.500", "MΩ"],
    ["0,500 V", "0.500", "V"],
    ["1234,567 V", "1234.567", "V"],
    ["1,50 V", "1.50", "V"],
    ["1,5000 V", "1.5000", "V"],
    ["1e3 V", "1000", "V"],
    ["1.5E-3 V", "0.0015", "V"],
    ["1.25e1V", "12.5", "V"],
    ["\uff15\uff0e\uff15\u3000\uff36", "5.5", "V"],
    ["0.000 V", "0.000", "V"],
    ["-0.0 V", "0.0", "V"],
    ["999999999999999", "999999999999999", undefined],
  ])("%s is %s %s", (text, decimalText, unit) => {
    const reading = parseQuantity(text);
    expect(reading).toEqual({ ok: true, value: Number(decimalText), decimalText, unit });
    expect(reading.ok && Object.is(reading.value, -0)).toBe(false);
  });

  test.each([
    [">999 MΩ", ">", "999", "MΩ"],
    ["> 200 MΩ", ">", "200", "MΩ"],
    ["<0.01 Ω", "<", "0.01", "Ω"],
    ["\uff1e999 MΩ", ">", "999", "MΩ"],
    ["<-5 °C", "<", "-5", "°C"],
  ])("%s keeps its qualifier", (text, qualifier, decimalText, unit) => {
    expect(parseQuantity(text)).toEqual({
      ok: true,
      value: Number(decimalText),
      decimalText,
      unit,
      qualifier,
    });
  });
});

describe("refused readings say what to write instead", () => {
  test.each([
    ["1,500", "1500 or as 1.500"],
    ["12,345 V", "12345 or as 12.345"],
    ["1,234,567", "at most one decimal point"],
    ["1,234.5 V", "at most one decimal point"],
    ["1.234,5 V", "at most one decimal point"],
    ["1..5 V", "at most one decimal point"],
    ["1 500 V", "without spaces"],
    ["5-10 V", "one reading at a time"],
    ["5 6 V", "one reading at a time"],
    ["", "type the reading"],
    ["   ", "type the reading"],
    ["NaN", "digits first"],
    ["Infinity", "digits first"],
    ["-Infinity V", "digits first"],
    ["1e400", "check it and its unit"],
    ["1e-400", "check it and its unit"],
    ["1e16", "check it and its unit"],
    ["1000000000000000", "check it and its unit"],
    ["0x1F", "not a unit"],
    ["0b101", "not a unit"],
    ["1_000", "not a unit"],
    ["abc", "digits first"],
    ["V 5", "digits first"],
    ["--5", "digits first"],
    ["٣ V", "digits first"],
    ["OL", "top of the range"],
    ["> O.L. MΩ", "top of the range"],
    ["5 mohm", "milliohm or megohm"],
    ["5 C", "write °C"],
    ["12'12\"", "below 12"],
    ["1'500", "12' 6 1/2\""],
    ["1/3 in", "halves to 64ths"],
    ["9/8 in", "halves to 64ths"],
    ["1/0 in", "halves to 64ths"],
    ["5 ±2 V", "not a unit"],
    [`1234${NARROW}567 V`, "space inside"],
    [`1${NARROW}50 V`, "space inside"],
  ])("%j", (text, advice) => {
    expect(parseQuantity(text)).toEqual({ ok: false, problem: expect.stringContaining(advice) });
  });

  test("40 characters are read and 41 are not", () => {
    const digits = `0.${"1".repeat(36)} V`;
    expect(digits.length).toBe(40);
    expect(parseQuantity(digits).ok).toBe(true);
    expect(parseQuantity(`0.${"1".repeat(37)} V`)).toEqual({
      ok: false,
      problem: expect.stringContaining("at most 40 characters"),
    });
  });

  test("a unit of another quantity is refused where one is asked for", () => {
    expect(parseQuantity("5 mm", { quantity: "torque" })).toEqual({
      ok: false,
      problem: "mm is a unit of length; what is asked for is torque.",
    });
    expect(parseQuantity("12'6\"", { quantity: "torque" }).ok).toBe(false);
    expect(parseQuantity("5 C", { quantity: "temperature" })).toMatchObject({ unit: "°C" });
    expect(parseQuantity("5", { quantity: "torque" })).toMatchObject({ ok: true, unit: undefined });
  });
});

describe("any text", () => {
  test("is either read as a finite number or refused with a sentence", () => {
    const piece = fc.constantFrom(..."0123456789.,-+<>'\"/eE ½\u00a0\u2212", ...UNIT_SYMBOLS);
    const text = fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join(""));
    fc.assert(
      fc.property(fc.oneof(text, fc.string({ maxLength: 60 })), (typed) => {
        const reading = parseQuantity(typed);
        if (!reading.ok) return /^\S.*[.]$/su.test(reading.problem);
        return (
          Number.isFinite(reading.value) &&
          Math.abs(reading.value) < 1e15 &&
          /^-?\d+(\.\d+)?$/.test(reading.decimalText) &&
          Number(reading.decimalText) === reading.value
        );
      }),
      { numRuns: 5000 },
    );
  });

  test("a plain decimal with any unit is read digit for digit", () => {
    const decimal = fc
      .tuple(fc.boolean(), fc.nat(9_999_999), fc.stringMatching(/^\d{1,8}$/))
      .map(([isNegative, whole, part]) => `${isNegative && whole > 0 ? "-" : ""}${whole}.${part}`);
    fc.assert(
      fc.property(decimal, fc.constantFrom(...UNIT_SYMBOLS), (number, unit) => {
        const reading = parseQuantity(`${number} ${unit}`);
        return reading.ok && reading.decimalText === number && reading.unit === unit;
      }),
      { numRuns: 2000 },
    );
  });
});
