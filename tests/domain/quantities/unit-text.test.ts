import { describe, expect, test } from "vitest";
import { readUnit, unitFromText } from "../../../src/domain/quantities/unit-text.ts";
import {
  isUnit,
  QUANTITIES,
  type Quantity,
  quantityOf,
  UNIT_SYMBOLS,
  type Unit,
} from "../../../src/domain/quantities/units.ts";

describe("the table of units", () => {
  test("uses the code points of the SI Brochure: U+03A9, U+00B7, U+00B0, U+00B2", () => {
    const signs = new Set(UNIT_SYMBOLS.join("").replace(/[\u0020-\u007e]/g, ""));
    expect(signs).toEqual(new Set(["\u03a9", "\u00b7", "\u00b0", "\u00b2"]));
  });

  test("gives every quantity at least one unit", () => {
    expect(new Set(UNIT_SYMBOLS.map(quantityOf))).toEqual(new Set(QUANTITIES));
  });

  test("isUnit accepts canonical symbols only", () => {
    expect(isUnit("MΩ")).toBe(true);
    for (const text of ["M\u2126", "Nm", "", "constructor", "__proto__", " V"]) {
      expect(isUnit(text)).toBe(false);
    }
  });

  test("every canonical symbol is read as itself", () => {
    for (const unit of UNIT_SYMBOLS) expect(unitFromText(unit)).toBe(unit);
  });
});

describe("forms seen on tools and sheets (common practice, no source)", () => {
  test.each<readonly [Unit, readonly string[]]>([
    ["N·m", ["Nm", "N.m", "N·m", "N-m", "N m", "N*m", "NM", "N⋅m", "newton metres", "N•m"]],
    ["lbf·ft", ["ft-lb", "lbf·ft", "ft·lbf", "ft lbs", "ft.lb", "FT-LBS", "lb-ft", "foot-pounds"]],
    ["lbf·in", ["in-lb", "lbf.in", "lbf·in", "in.-lb.", "in lbs", "inch-pounds", "IN-LB", "lb·in"]],
    ["Ω", ["Ohm", "ohms", "\u2126", "\u03a9", "OHM"]],
    ["mΩ", ["mOhm", "m\u2126", "mOhms", "m Ω", "milliohm", "Milliohms"]],
    ["kΩ", ["kOhm", "k\u2126", "KOHM", "k ohm", "kilohms", "KΩ"]],
    ["MΩ", ["MOhm", "Mohm", "M\u2126", "megohm", "Megohms", "M ohm", "MEGOHM", "megaohm"]],
    ["°C", ["degC", "°C", "deg C", "deg. C", "\u2103", "Celsius", "º C", "° C"]],
    ["°F", ["degF", "°F", "\u2109", "degrees F"]],
    ["K", ["K", "\u212a", "kelvin"]],
    ["in", ["in", "in.", "inch", "Inches", '"', "\u2033", "\u201d", "''"]],
    ["ft", ["ft", "ft.", "feet", "'", "\u2032", "\u2019"]],
    ["V", ["VDC", "V DC", "V d.c.", "Vac", "V AC", "v", "Volts", "V-DC"]],
    ["mV", ["mV", "mv", "mVdc", "mV DC"]],
    ["A", ["A", "amps", "ADC", "A d.c."]],
    ["mA", ["mA", "ma", "mA AC"]],
    ["kA", ["kA", "KA"]],
    ["kWh", ["kWh", "KWH", "kW·h", "kW-h", "kilowatt hours"]],
    ["Ah", ["Ah", "AH", "A·h", "amp-hours"]],
    ["mm²", ["mm²", "mm2", "mm^2", "sq mm", "sq. mm"]],
    ["psi", ["psi", "PSI", "lbf/in²"]],
    ["kPa", ["kPa", "KPA"]],
    ["ms", ["ms", "msec"]],
    ["s", ["s", "sec", "Seconds"]],
    ["%", ["%", "percent"]],
    ["W/m²", ["W/m2", "w/m²"]],
  ])("%s is read from %j", (unit, forms) => {
    for (const form of forms) expect([form, unitFromText(form)]).toEqual([form, unit]);
  });
});

describe("forms with two meanings are refused with what to write", () => {
  test.each([
    ["mohm", "mΩ or mOhm"],
    ["MOHM", "MΩ or MOhm"],
    ["m ohm", "milliohm or megohm"],
    ["C", "°C"],
    ["F", "°F"],
    ["M", "m or MΩ"],
    ["k", "K or kΩ"],
    ["S", "siemens"],
    ["MS", "ms"],
    ["MV", "mV"],
    ["MVDC", "mV"],
    ["MA", "mA"],
    ["lbf", "lbf·ft or lbf·in"],
    ["cm", "mm or m"],
    ["°", "°C or °F"],
  ])("%s", (form, advice) => {
    expect(unitFromText(form)).toBeUndefined();
    expect(readUnit(form)).toEqual({ ok: false, problem: expect.stringContaining(advice) });
  });

  test.each<readonly [string, Quantity, Unit]>([
    ["C", "temperature", "°C"],
    ["f", "temperature", "°F"],
    ["M", "length", "m"],
    ["M", "resistance", "MΩ"],
    ["k", "resistance", "kΩ"],
  ])("%s where a %s is asked for is %s", (form, quantity, unit) => {
    expect(readUnit(form, quantity)).toEqual({ ok: true, unit });
  });

  test("mohm stays refused where a resistance is asked for: a factor of 10⁹ is not guessed", () => {
    expect(readUnit("mohm", "resistance").ok).toBe(false);
  });

  test.each(["furlong", "µV", "", "N·m²", "m·m", "toString", "x".repeat(500), "V".repeat(31)])(
    "%j is unknown",
    (form) => {
      expect(unitFromText(form)).toBeUndefined();
    },
  );
});
