// Times as a person reads them at the site. Offsets and changes of clocks: IANA time zone database.
import { describe, expect, test } from "vitest";
import { clockTime, duration, instantText } from "../../../src/domain/acceptance/clock-time.ts";

describe("how long something took", () => {
  test.each([
    [0, "0 s"],
    [1, "0.001 s"],
    [999, "0.999 s"],
    [1000, "1 s"],
    [59_999, "59.999 s"],
    [60_000, "1 min"],
    [61_500, "1 min 1.5 s"],
    [3_599_000, "59 min 59 s"],
    [3_600_000, "1 h"],
    [3_661_000, "1 h 1 min 1 s"],
    [7_200_250, "2 h 0.25 s"],
    [90_060_000, "25 h 1 min"],
  ])("%d ms is %s", (ms, told) => {
    expect(duration(ms)).toBe(told);
  });
});

describe("the site's own time", () => {
  test.each([
    ["2026-11-25T09:05:07Z", "Europe/London", "2026-11-25 09:05:07 (UTC)"],
    ["2026-07-01T09:05:07Z", "Europe/London", "2026-07-01 10:05:07 (UTC+1)"],
    ["2026-10-25T00:30:00Z", "Europe/London", "2026-10-25 01:30:00 (UTC+1)"],
    ["2026-10-25T01:30:00Z", "Europe/London", "2026-10-25 01:30:00 (UTC)"],
    ["2026-07-01T12:00:00Z", "America/New_York", "2026-07-01 08:00:00 (UTC−4)"],
    ["2026-01-01T12:00:00Z", "America/St_Johns", "2026-01-01 08:30:00 (UTC−3:30)"],
    ["2026-01-01T12:00:00Z", "Asia/Kathmandu", "2026-01-01 17:45:00 (UTC+5:45)"],
    ["2026-01-01T12:00:00Z", "Pacific/Kiritimati", "2026-01-02 02:00:00 (UTC+14)"],
    ["2026-11-25T09:05:07.900Z", "Europe/London", "2026-11-25 09:05:07 (UTC)"],
    // Liberia kept 44 minutes and 30 seconds behind until 1972: told to the minute.
    ["1970-01-01T12:00:00Z", "Africa/Monrovia", "1970-01-01 11:15:30 (UTC−0:44)"],
    // Paris kept 9 minutes and 21 seconds ahead until 1911.
    ["1900-01-01T12:00:00Z", "Europe/Paris", "1900-01-01 12:09:21 (UTC+0:09)"],
    // Greenwich less 25 minutes and 21 seconds until 1916.
    ["1916-01-01T12:00:00.500Z", "Europe/Dublin", "1916-01-01 11:34:39 (UTC−0:25)"],
  ])("%s in %s is %s", (instant, timeZone, told) => {
    expect(clockTime(Date.parse(instant), timeZone)).toBe(told);
  });
});

test("an instant is written in UTC as RFC 3339 has it", () => {
  expect(instantText(Date.UTC(2026, 10, 25, 9, 5, 7))).toBe("2026-11-25T09:05:07Z");
});
