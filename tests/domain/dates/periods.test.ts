import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { calibrationDue, isInCalibration } from "../../../src/domain/dates/calibration-dates.ts";
import { addPeriod, type Period, periodEnd } from "../../../src/domain/dates/period.ts";
import { daysBetween, isPlainDate, parsePlainDate } from "../../../src/domain/dates/plain-date.ts";

const DAY_MS = 86_400_000;

/** Days as counted by ECMA-262 Date in UTC, independent of the code under test. */
function dayNumber(date: string): number {
  return Date.parse(`${date}T00:00:00Z`) / DAY_MS;
}

function dayText(day: number): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

const anyDay = fc
  .integer({ min: dayNumber("1900-01-01"), max: dayNumber("2200-12-31") })
  .map(dayText);

describe("plain dates (RFC 3339 full-date)", () => {
  test.each(["2026-03-29", "2024-02-29", "2000-02-29", "0001-01-01", "9999-12-31"])(
    "%s is a day",
    (text) => {
      expect(isPlainDate(text)).toBe(true);
      expect(parsePlainDate(` ${text}\n`)).toEqual({ ok: true, date: text });
    },
  );

  test.each([
    "2023-02-29",
    "1900-02-29",
    "2026-13-01",
    "2026-00-10",
    "2026-04-31",
    "2026-4-3",
    "20260329",
    "29.03.2026",
    "2026-03-29T00:00",
    "2026-03-29[u-ca=hebrew]",
    "+002026-03-29",
    "0000-01-01",
    "",
    "today",
  ])("%j is none", (text) => {
    expect(isPlainDate(text)).toBe(false);
    expect(parsePlainDate(text)).toMatchObject({ ok: false });
  });

  test("days between two days agree with ECMA-262 Date in UTC", () => {
    fc.assert(
      fc.property(anyDay, anyDay, (a, b) => daysBetween(a, b) === dayNumber(b) - dayNumber(a)),
    );
  });

  test.each([
    ["2026-01-01", "2026-01-01", 0],
    ["2024-02-28", "2024-03-01", 2],
    ["2023-02-28", "2023-03-01", 1],
    ["2026-03-28", "2026-03-30", 2],
    ["2026-01-02", "2026-01-01", -1],
  ])("from %s to %s there are %d days (Gregorian calendar)", (from, to, days) => {
    expect(daysBetween(from, to)).toBe(days);
  });

  test("a text that is no day is a bug in the functions that count", () => {
    expect(() => daysBetween("2026-02-30", "2026-03-01")).toThrow(RangeError);
    expect(() => addPeriod("2026-3-1", { days: 1 })).toThrow(RangeError);
  });
});

describe("periods (Regulation 1182/71 Art. 3(2)(c), memory; Temporal overflow constrain)", () => {
  test.each<readonly [string, Period, string]>([
    ["2024-01-31", { months: 1 }, "2024-02-29"],
    ["2023-01-31", { months: 1 }, "2023-02-28"],
    ["2024-02-29", { years: 10 }, "2034-02-28"],
    ["2024-02-29", { years: 4 }, "2028-02-29"],
    ["2024-02-29", { months: 12 }, "2025-02-28"],
    ["2024-01-30", { months: 1 }, "2024-02-29"],
    ["2024-01-29", { months: 1 }, "2024-02-29"],
    ["2024-01-28", { months: 1 }, "2024-02-28"],
    ["2024-05-31", { months: 1 }, "2024-06-30"],
    ["2024-02-29", { months: 1 }, "2024-03-29"],
    ["2024-12-31", { days: 1 }, "2025-01-01"],
    ["2024-01-31", { months: 1, days: 1 }, "2024-03-01"],
    ["2025-06-15", { years: 1, months: 2, days: 3 }, "2026-08-18"],
    ["2024-03-31", { months: -1 }, "2024-02-29"],
    ["2096-02-29", { years: 4 }, "2100-02-28"],
  ])("%s and %j is %s", (start, period, expected) => {
    expect(addPeriod(start, period)).toBe(expected);
  });

  test("months added at once keep the 31st, one by one they lose it", () => {
    const oneByOne = addPeriod(addPeriod("2024-01-31", { months: 1 }), { months: 1 });
    expect([addPeriod("2024-01-31", { months: 2 }), oneByOne]).toEqual([
      "2024-03-31",
      "2024-03-29",
    ]);
  });

  test("any number of months lands on the same date or the month's last day", () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: -600, max: 600 }), (start, months) => {
        const [year = 0, month = 0, day = 0] = start.split("-").map(Number);
        const last = new Date(Date.UTC(year, month - 1 + months + 1, 0));
        const expected = Date.UTC(
          last.getUTCFullYear(),
          last.getUTCMonth(),
          Math.min(day, last.getUTCDate()),
        );
        return addPeriod(start, { months }) === dayText(expected / DAY_MS);
      }),
    );
  });

  test("any number of days agrees with ECMA-262 Date in UTC", () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: -40_000, max: 40_000 }), (start, days) => {
        return addPeriod(start, { days }) === dayText(dayNumber(start) + days);
      }),
    );
  });

  test("the end of a period is the same date, and an empty period is a bug", () => {
    expect(periodEnd("2026-03-15", { years: 10 })).toBe("2036-03-15");
    expect(periodEnd("2026-03-15", { days: 30 })).toBe("2026-04-14");
    expect(() => periodEnd("2026-03-15", {})).toThrow(RangeError);
    expect(() => periodEnd("2026-03-15", { months: -1 })).toThrow(RangeError);
  });

  test("fractions of a month and years beyond 9999 are bugs", () => {
    expect(() => addPeriod("2026-01-01", { months: 1.5 })).toThrow(RangeError);
    expect(() => addPeriod("2026-01-01", { days: Number.NaN })).toThrow(RangeError);
    expect(() => addPeriod("9999-12-31", { days: 1 })).toThrow(RangeError);
    expect(() => addPeriod("0001-01-01", { days: -1 })).toThrow(RangeError);
  });
});

describe("calibration (ISO 6789-1 5.3: 12 months, memory; due day: common practice)", () => {
  test.each([
    ["2025-06-10", 12, "2026-06-10"],
    ["2024-02-29", 12, "2025-02-28"],
    ["2025-08-31", 6, "2026-02-28"],
  ])("calibrated on %s for %d months is due on %s", (on, months, due) => {
    expect(calibrationDue(on, months)).toBe(due);
  });

  test.each([
    ["2025-06-09", false],
    ["2025-06-10", true],
    ["2026-06-09", true],
    ["2026-06-10", true],
    ["2026-06-11", false],
  ])("a reading on %s is in date: %s", (on, isIn) => {
    expect(isInCalibration(on, "2025-06-10", "2026-06-10")).toBe(isIn);
  });

  test("an interval of no months, or a text that is no day, is a bug", () => {
    expect(() => calibrationDue("2025-06-10", 0)).toThrow(RangeError);
    expect(() => isInCalibration("10 June", "2025-06-10", "2026-06-10")).toThrow(RangeError);
  });
});
