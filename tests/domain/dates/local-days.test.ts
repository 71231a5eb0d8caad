import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayBounds, isTimeZone, localDay } from "../../../src/domain/dates/zone-time.ts";
import { anyInstant, ZONES } from "./instants.ts";

function hoursOf(day: string, timeZone: string): number {
  const { start, end } = dayBounds(day, timeZone);
  return (Date.parse(end) - Date.parse(start)) / 3_600_000;
}

describe("time zone names (IANA time zone database)", () => {
  test.each([
    "Europe/Berlin",
    "UTC",
    "America/Argentina/Buenos_Aires",
    "europe/berlin",
    "Etc/GMT+5",
  ])("%s is one", (text) => {
    expect(isTimeZone(text)).toBe(true);
    expect(isTimeZone(text)).toBe(true);
  });

  test.each(["", "+01:00", "-05", "Mars/Olympus", "Europe/Berlin ", "2026", "A".repeat(65)])(
    "%j is none",
    (text) => {
      expect(isTimeZone(text)).toBe(false);
    },
  );
});

describe("local days around the change of clocks (rules: IANA time zone database)", () => {
  test.each([
    ["Europe/Berlin", "2026-03-29", 23],
    ["Europe/Berlin", "2026-10-25", 25],
    ["Europe/Berlin", "2026-03-28", 24],
    ["Europe/London", "2026-03-29", 23],
    ["America/New_York", "2026-03-08", 23],
    ["America/New_York", "2026-11-01", 25],
    ["America/Phoenix", "2026-03-08", 24],
    ["Australia/Sydney", "2026-10-04", 23],
    ["Australia/Sydney", "2026-04-05", 25],
    ["Australia/Lord_Howe", "2026-10-04", 23.5],
    ["Australia/Lord_Howe", "2026-04-05", 24.5],
    ["Pacific/Auckland", "2026-09-27", 23],
    ["Pacific/Auckland", "2026-04-05", 25],
    ["America/Sao_Paulo", "2018-11-04", 23],
    ["Pacific/Apia", "2011-12-30", 0],
    ["Pacific/Apia", "2011-12-31", 24],
  ])("in %s the day %s has %d hours", (timeZone, day, hours) => {
    expect(hoursOf(day, timeZone)).toBe(hours);
  });

  test.each([
    ["2026-03-29", "Europe/Berlin", "2026-03-28T23:00:00Z", "2026-03-29T22:00:00Z"],
    ["2026-07-01", "America/New_York", "2026-07-01T04:00:00Z", "2026-07-02T04:00:00Z"],
    ["2018-11-04", "America/Sao_Paulo", "2018-11-04T03:00:00Z", "2018-11-05T02:00:00Z"],
    ["2026-01-01", "Asia/Kathmandu", "2025-12-31T18:15:00Z", "2026-01-01T18:15:00Z"],
    ["2026-01-01", "Pacific/Chatham", "2025-12-31T10:15:00Z", "2026-01-01T10:15:00Z"],
  ])("%s in %s runs from %s to %s", (day, timeZone, start, end) => {
    expect(dayBounds(day, timeZone)).toEqual({ start, end });
  });

  test.each([
    ["2026-03-28T22:59:59Z", "Europe/Berlin", "2026-03-28"],
    ["2026-03-28T23:00:00Z", "Europe/Berlin", "2026-03-29"],
    ["2026-03-29T00:00:00+02:00", "Europe/Berlin", "2026-03-28"],
    ["2026-01-01T04:59:59Z", "America/New_York", "2025-12-31"],
    ["2026-01-01T05:00:00Z", "America/New_York", "2026-01-01"],
    ["2026-01-01T10:00:00Z", "Pacific/Auckland", "2026-01-01"],
    ["2026-01-01T11:00:00Z", "Pacific/Auckland", "2026-01-02"],
  ])("%s in %s is %s", (instant, timeZone, day) => {
    expect(localDay(instant, timeZone)).toBe(day);
  });

  test("every instant lies within the bounds of its local day", () => {
    fc.assert(
      fc.property(anyInstant, fc.constantFrom(...ZONES), (instant, timeZone) => {
        const { start, end } = dayBounds(localDay(instant, timeZone), timeZone);
        const at = Date.parse(instant);
        return Date.parse(start) <= at && at < Date.parse(end);
      }),
      { numRuns: 500 },
    );
  });
});
