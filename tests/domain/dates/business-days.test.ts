import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  addBusinessDays,
  businessDayOnOrAfter,
  isBusinessDay,
  nextBusinessDay,
} from "../../../src/domain/dates/business-days.ts";

// 2026-04-03 is Good Friday and 2026-04-06 Easter Monday (Gregorian Easter: 5 April 2026).
const EASTER: ReadonlySet<string> = new Set(["2026-04-03", "2026-04-06"]);
const NONE: ReadonlySet<string> = new Set();

describe("business days (Regulation 1182/71 Art. 2: no Saturday, Sunday, holiday)", () => {
  test.each([
    ["2026-04-02", true],
    ["2026-04-03", false],
    ["2026-04-04", false],
    ["2026-04-05", false],
    ["2026-04-06", false],
    ["2026-04-07", true],
  ])("%s is one: %s", (date, expected) => {
    expect(isBusinessDay(date, EASTER)).toBe(expected);
  });

  test("a period that ends on a day off runs to the next business day (Art. 3(4))", () => {
    expect(businessDayOnOrAfter("2026-04-03", EASTER)).toBe("2026-04-07");
    expect(businessDayOnOrAfter("2026-04-07", EASTER)).toBe("2026-04-07");
  });

  test("the next business day is never the day itself", () => {
    expect(nextBusinessDay("2026-04-01", EASTER)).toBe("2026-04-02");
    expect(nextBusinessDay("2026-04-02", EASTER)).toBe("2026-04-07");
    expect(nextBusinessDay("2026-04-04", EASTER)).toBe("2026-04-07");
  });

  test.each([
    ["2026-04-01", 0, "2026-04-01"],
    ["2026-04-04", 0, "2026-04-07"],
    ["2026-04-01", 1, "2026-04-02"],
    ["2026-04-01", 2, "2026-04-07"],
    ["2026-04-01", 6, "2026-04-13"],
    ["2026-04-07", -1, "2026-04-02"],
    ["2026-04-05", -1, "2026-04-02"],
    ["2026-04-05", 1, "2026-04-07"],
  ])("%s and %d business days is %s", (date, n, expected) => {
    expect(addBusinessDays(date, n, EASTER)).toBe(expected);
  });

  test("another weekend can be handed in: Friday and Saturday", () => {
    const weekend = new Set([5, 6]);
    expect(isBusinessDay("2026-04-05", NONE, weekend)).toBe(true);
    expect(addBusinessDays("2026-04-02", 1, NONE, weekend)).toBe("2026-04-05");
  });

  test("a fraction of a day, or a year with no business day, is a bug", () => {
    expect(() => addBusinessDays("2026-04-01", 1.5, NONE)).toThrow(RangeError);
    const allDays = new Set([1, 2, 3, 4, 5, 6, 7]);
    expect(() => nextBusinessDay("2026-04-01", NONE, allDays)).toThrow(RangeError);
  });
});

test("counting days one by one on ECMA-262 Date in UTC gives the same", () => {
  const day = fc.integer({ min: 0, max: 40_000 });
  const text = (number: number) => new Date(number * 86_400_000).toISOString().slice(0, 10);
  fc.assert(
    fc.property(day, fc.integer({ min: -60, max: 60 }), fc.array(day), (start, n, offsets) => {
      fc.pre(n !== 0);
      const holidays = new Set(offsets.map((offset) => text(start + (offset % 100) - 50)));
      const isOff = (number: number) =>
        [0, 6].includes(new Date(number * 86_400_000).getUTCDay()) || holidays.has(text(number));
      let current = start;
      let left = Math.abs(n);
      while (left > 0) {
        current += Math.sign(n);
        if (!isOff(current)) left -= 1;
      }
      return addBusinessDays(text(start), n, holidays) === text(current);
    }),
    { numRuns: 300 },
  );
});
