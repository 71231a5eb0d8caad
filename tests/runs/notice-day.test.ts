// Seven in the morning by the firm's own clock. UTC offsets and the days on which clocks change are
// those of the IANA time zone database (tzdata), as Node's own Intl reads it.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { NOTICE_HOUR, noticeDay } from "../../src/runs/notice-day.ts";

const ZONES = ["Pacific/Auckland", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu"];

describe("the hour of a firm's notice", () => {
  test.each([
    // An ordinary day: UTC+13, UTC-5, UTC+11 (Lord Howe's summer).
    ["Pacific/Auckland", "2026-11-24T17:59:59.999Z", "2026-11-25", false],
    ["Pacific/Auckland", "2026-11-24T18:00:00Z", "2026-11-25", true],
    ["America/New_York", "2026-11-25T11:59:59.999Z", "2026-11-25", false],
    ["America/New_York", "2026-11-25T12:00:00Z", "2026-11-25", true],
    ["Australia/Lord_Howe", "2026-11-24T19:59:59.999Z", "2026-11-25", false],
    ["Australia/Lord_Howe", "2026-11-24T20:00:00Z", "2026-11-25", true],
    // Clocks go forward in the night: only six hours after midnight.
    ["America/New_York", "2027-03-14T10:59:59.999Z", "2027-03-14", false],
    ["America/New_York", "2027-03-14T11:00:00Z", "2027-03-14", true],
    ["Pacific/Auckland", "2026-09-26T17:59:59.999Z", "2026-09-27", false],
    ["Pacific/Auckland", "2026-09-26T18:00:00Z", "2026-09-27", true],
    // Half an hour forward, from +10:30 to +11.
    ["Australia/Lord_Howe", "2026-10-03T19:59:59.999Z", "2026-10-04", false],
    ["Australia/Lord_Howe", "2026-10-03T20:00:00Z", "2026-10-04", true],
    // Clocks go back: eight hours after midnight, seven and a half on Lord Howe.
    ["America/New_York", "2026-11-01T11:59:59.999Z", "2026-11-01", false],
    ["America/New_York", "2026-11-01T12:00:00Z", "2026-11-01", true],
    ["Pacific/Auckland", "2027-04-03T18:59:59.999Z", "2027-04-04", false],
    ["Pacific/Auckland", "2027-04-03T19:00:00Z", "2027-04-04", true],
    ["Australia/Lord_Howe", "2027-04-03T20:29:59.999Z", "2027-04-04", false],
    ["Australia/Lord_Howe", "2027-04-03T20:30:00Z", "2027-04-04", true],
    // The last minute of a day still belongs to it; the next begins without its hour.
    ["America/New_York", "2026-11-26T04:59:59.999Z", "2026-11-25", true],
    ["America/New_York", "2026-11-26T05:00:00Z", "2026-11-26", false],
  ])("in %s at %s is the day %s, come: %s", (timeZone, at, day, hourHasCome) => {
    expect(noticeDay(new Date(at), timeZone)).toEqual({ day, hourHasCome });
  });

  test("comes on each day of the year exactly once, whatever the clocks do", () => {
    for (const timeZone of ZONES) {
      const days = new Map<string, boolean[]>();
      const start = Date.UTC(2026, 0, 2);
      for (let step = 0; step < 365 * 24 * 4; step += 1) {
        const { day, hourHasCome } = noticeDay(new Date(start + step * 900_000), timeZone);
        days.set(day, [...(days.get(day) ?? []), hourHasCome]);
      }
      for (const come of [...days.values()].slice(1, -1)) {
        const changes = come.filter((value, index) => value !== come[index - 1]).length;
        expect([come[0], come.at(-1), changes]).toEqual([false, true, 2]);
      }
    }
  });

  test("agrees with Intl.DateTimeFormat at any moment of fifty years", () => {
    const moments = fc.integer({ min: Date.UTC(2000, 0, 1), max: Date.UTC(2050, 0, 1) });
    fc.assert(
      fc.property(moments, fc.constantFrom(...ZONES), (time, timeZone) => {
        const parts = new Intl.DateTimeFormat("en-CA", {
          timeZone,
          dateStyle: "short",
          timeStyle: "medium",
          hourCycle: "h23",
        }).format(time);
        const [day, clock] = parts.split(", ") as [string, string];
        const hourHasCome = Number(clock.slice(0, 2)) >= NOTICE_HOUR;
        expect(noticeDay(new Date(time), timeZone)).toEqual({ day, hourHasCome });
      }),
    );
  });
});
