// A battery's passport: values within the bounds of their fields (from memory of Regulation (EU)
// 2023/1542; the bounds are common practice, no source), and addresses after the examples of the
// GS1 Digital Link standard, whose GTIN 09520123456788 it uses throughout.
import { describe, expect, test } from "vitest";
import {
  PASSPORT_FIELD_NAMES,
  PASSPORT_FIELDS,
  type PassportFieldName,
  passportValueProblem,
} from "../../../src/domain/passport/fields.ts";
import { readPassportLink } from "../../../src/domain/passport/link.ts";

describe("a value", () => {
  test.each<[PassportFieldName, number | string, string | undefined]>([
    ["ratedCapacity", 0, undefined],
    ["ratedCapacity", -0.1, "must be at least 0 Ah"],
    ["stateOfHealth", 110, undefined],
    ["stateOfHealth", 110.1, "must be at most 110 %"],
    ["coldestStorage", -100, undefined],
    ["coldestStorage", -100.5, "must be at least -100 °C"],
    ["nominalVoltage", "51.2", "must be a number, in V"],
    ["nominalVoltage", Number.NaN, "must be a number, in V"],
    ["chemistry", "LFP", undefined],
    ["chemistry", 4, "must be a text"],
  ])("%s %s: %s", (field, value, problem) => {
    expect(passportValueProblem(field, value)).toBe(problem);
  });

  test("has a field with a point of the regulation, or is said to have none", () => {
    const without = PASSPORT_FIELD_NAMES.filter((name) => PASSPORT_FIELDS[name].point === "–");
    expect(without).toEqual(["ratedEnergy"]);
  });
});

describe("an address", () => {
  const GTIN = "https://id.gs1.org/01/09520123456788";
  test.each([
    [`${GTIN}/21/12345`, "12345", "same"],
    [`${GTIN}/10/ABC1/21/fs%2D1`, "FS-1", "same"],
    [`${GTIN}/21/12345`, "12346", "other"],
    [GTIN, "12345", "none"],
  ])("%s on %s: %s", (uri, serial, match) => {
    const read = readPassportLink(uri, serial);
    expect(read).toMatchObject({ ok: true, serial: match });
    expect(read.ok && read.elements[0]).toEqual({ ai: "01", value: "09520123456788" });
  });

  test("that is no Digital Link, or whose GTIN fails its check digit, is refused", () => {
    expect(readPassportLink("https://example.com/battery", "1").ok).toBe(false);
    expect(readPassportLink("https://id.gs1.org/01/09520123456789", "1").ok).toBe(false);
  });
});
