import { describe, expect, test } from "vitest";
import { gs1Date } from "../../../src/domain/identifiers/gs1-date.ts";

describe("GS1 dates (General Specifications 7.12 and 3.4, from memory)", () => {
  test.each([
    ["260131", 2026, "2026-01-31"],
    ["760131", 2026, "2076-01-31"],
    ["770131", 2026, "1977-01-31"],
    ["000101", 2050, "2100-01-01"],
    ["010101", 2050, "2001-01-01"],
    ["490101", 2000, "2049-01-01"],
    ["510101", 2000, "1951-01-01"],
    ["280200", 2026, "2028-02-29"],
    ["260200", 2026, "2026-02-28"],
  ])("%s seen in %d is %s", (value, currentYear, expected) => {
    expect(gs1Date(value, currentYear)).toBe(expected);
  });

  test.each(["261301", "260001", "260230", "260132", "26013", "26O131"])(
    "%s is no date",
    (value) => {
      expect(gs1Date(value, 2026)).toBeUndefined();
    },
  );
});
