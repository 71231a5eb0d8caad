import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { quietUntil } from "../../../src/domain/calendar/quiet-hours.ts";

const NIGHT = { from: "20:00", to: "08:00" };
const London = "Europe/London";

describe("quiet hours", () => {
  test.each([
    ["just before", "2026-01-15T19:59:59Z", undefined],
    ["at their beginning", "2026-01-15T20:00:00Z", "2026-01-16T08:00:00Z"],
    ["past midnight", "2026-01-16T03:00:00Z", "2026-01-16T08:00:00Z"],
    ["just before their end", "2026-01-16T07:59:59Z", "2026-01-16T08:00:00Z"],
    ["at their end", "2026-01-16T08:00:00Z", undefined],
    ["in summer, by the wall clock", "2026-07-15T19:00:00Z", "2026-07-16T07:00:00Z"],
  ])("%s", (_when, instant, end) => {
    expect(quietUntil(instant, NIGHT, London)).toBe(end);
  });

  test("within a day do not reach past midnight", () => {
    const noon = { from: "12:00", to: "13:30" };
    expect(quietUntil("2026-01-15T12:00:00Z", noon, London)).toBe("2026-01-15T13:30:00Z");
    expect(quietUntil("2026-01-15T13:30:00Z", noon, London)).toBeUndefined();
    expect(quietUntil("2026-01-15T11:59:00Z", noon, London)).toBeUndefined();
  });

  test("that begin when they end are none", () => {
    expect(quietUntil("2026-01-15T08:00:00Z", { from: "08:00", to: "08:00" }, London)).toBe(
      undefined,
    );
  });

  // IANA time zone database: Europe/London leaps from 01:00 to 02:00 on 29 March 2026 and goes back
  // from 02:00 to 01:00 on 25 October 2026.
  test.each([
    ["over the hour that is missing", "2026-03-29T00:30:00Z", "01:30", "2026-03-29T01:00:00Z"],
    ["at a time that comes twice, first", "2026-10-25T00:10:00Z", "01:30", "2026-10-25T00:30:00Z"],
    ["at a time that comes twice, again", "2026-10-25T01:10:00Z", "01:30", "2026-10-25T01:30:00Z"],
  ])("end %s", (_when, instant, to, end) => {
    expect(quietUntil(instant, { from: "22:00", to }, London)).toBe(end);
  });

  test("end where a look at the wall clock minute by minute says so", () => {
    const time = fc
      .tuple(fc.integer({ min: 0, max: 23 }), fc.constantFrom("00", "15", "30", "45"))
      .map(([hour, minute]) => `${String(hour).padStart(2, "0")}:${minute}`);
    const zone = fc.constantFrom(London, "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata");
    // Around both changes of the clock of each of these zones, and any day of the year.
    const minutes = fc.integer({ min: 0, max: 366 * 24 * 60 });
    const start = Temporal.Instant.from("2026-01-01T00:00:00Z");
    fc.assert(
      fc.property(minutes, time, time, zone, (at, from, to, timeZone) => {
        const instant = start.add({ minutes: at });
        const found = quietUntil(instant.toString(), { from, to }, timeZone);
        expect(found).toBe(byMinutes(instant, from, to, timeZone));
      }),
      { numRuns: 150 },
    );
  });
});

function byMinutes(instant: Temporal.Instant, from: string, to: string, timeZone: string) {
  const isQuiet = (moment: Temporal.Instant): boolean => {
    const clock = moment.toZonedDateTimeISO(timeZone).toPlainTime().toString().slice(0, 5);
    return from <= to ? from <= clock && clock < to : clock >= from || clock < to;
  };
  if (!isQuiet(instant)) return undefined;
  let moment = instant;
  while (isQuiet(moment)) moment = moment.add({ minutes: 1 });
  return moment.toString();
}
