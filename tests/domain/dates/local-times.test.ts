import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  dayBounds,
  localDay,
  localTime,
  localTimeToInstant,
} from "../../../src/domain/dates/zone-time.ts";
import { anyInstant, ZONES } from "./instants.ts";

/** The local time by Intl.DateTimeFormat (ECMA-402), used as an oracle. */
function intlLocalTime(instant: string, timeZone: string): string {
  const format = new Intl.DateTimeFormat("en-US-u-ca-iso8601-nu-latn", {
    timeZone,
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
    hourCycle: "h23",
  });
  const parts = new Map(
    format.formatToParts(Date.parse(instant)).map(({ type, value }) => [type, value]),
  );
  const part = (type: string) => parts.get(type as Intl.DateTimeFormatPartTypes) ?? "";
  const date = ["year", "month", "day"].map(part).join("-");
  return `${date}T${["hour", "minute", "second"].map(part).join(":")}`;
}

describe("local times and instants (RFC 5545 3.3.5: gap by the offset before, else first)", () => {
  test.each([
    ["2026-03-29T01:59", "Europe/Berlin", "2026-03-29T00:59:00Z", undefined],
    ["2026-03-29T02:00", "Europe/Berlin", "2026-03-29T01:00:00Z", "gap"],
    ["2026-03-29T02:30", "Europe/Berlin", "2026-03-29T01:30:00Z", "gap"],
    ["2026-03-29T02:59:59", "Europe/Berlin", "2026-03-29T01:59:59Z", "gap"],
    ["2026-03-29T03:00", "Europe/Berlin", "2026-03-29T01:00:00Z", undefined],
    ["2026-10-25T01:59", "Europe/Berlin", "2026-10-24T23:59:00Z", undefined],
    ["2026-10-25T02:00", "Europe/Berlin", "2026-10-25T00:00:00Z", "overlap"],
    ["2026-10-25T02:59:59", "Europe/Berlin", "2026-10-25T00:59:59Z", "overlap"],
    ["2026-10-25T03:00", "Europe/Berlin", "2026-10-25T02:00:00Z", undefined],
    ["2026-03-08T02:30", "America/New_York", "2026-03-08T07:30:00Z", "gap"],
    ["2026-11-01T01:30", "America/New_York", "2026-11-01T05:30:00Z", "overlap"],
    ["2026-10-04T02:30", "Australia/Sydney", "2026-10-03T16:30:00Z", "gap"],
    ["2026-04-05T02:30", "Australia/Sydney", "2026-04-04T15:30:00Z", "overlap"],
    ["2026-10-04T02:15", "Australia/Lord_Howe", "2026-10-03T15:45:00Z", "gap"],
    ["2026-10-04T02:30", "Australia/Lord_Howe", "2026-10-03T15:30:00Z", undefined],
    ["2026-04-05T01:45", "Australia/Lord_Howe", "2026-04-04T14:45:00Z", "overlap"],
    ["2018-11-04T00:30", "America/Sao_Paulo", "2018-11-04T03:30:00Z", "gap"],
    ["2011-12-30T12:00", "Pacific/Apia", "2011-12-30T22:00:00Z", "gap"],
    ["2026-07-01T14:30", "UTC", "2026-07-01T14:30:00Z", undefined],
  ])("%s in %s is %s (%s)", (dateTime, timeZone, instant, note) => {
    expect(localTimeToInstant(dateTime, timeZone)).toEqual({
      ok: true,
      instant,
      ...(note && { note }),
    });
  });

  test("the second of two equal local times can be asked for", () => {
    expect(localTimeToInstant("2026-10-25T02:30", "Europe/Berlin", "later")).toEqual({
      ok: true,
      instant: "2026-10-25T01:30:00Z",
      note: "overlap",
    });
    expect(localTimeToInstant("2026-03-29T02:30", "Europe/Berlin", "later")).toMatchObject({
      instant: "2026-03-29T01:30:00Z",
    });
  });

  test.each([
    ["2026-02-30T12:00", "UTC"],
    ["2026-02-20T24:00", "UTC"],
    ["2026-02-20T23:60", "UTC"],
    ["2026-06-30T23:59:60", "UTC"],
    ["2026-02-20", "UTC"],
    ["2026-02-20 12:00", "UTC"],
    ["2026-02-20T12:00Z", "UTC"],
    ["2026-02-20T12:00+01:00", "UTC"],
    ["", "UTC"],
    ["2026-02-20T12:00", "+01:00"],
    ["2026-02-20T12:00", "Mars/Olympus"],
  ])("%j in %j is refused with what to write", (dateTime, timeZone) => {
    expect(localTimeToInstant(dateTime, timeZone)).toEqual({
      ok: false,
      problem: expect.stringMatching(/(write it as|choose one).*\.$/),
    });
  });

  test("localTime agrees with Intl.DateTimeFormat (ECMA-402)", () => {
    fc.assert(
      fc.property(anyInstant, fc.constantFrom(...ZONES), (instant, timeZone) => {
        return localTime(instant, timeZone) === intlLocalTime(instant, timeZone);
      }),
      { numRuns: 1000 },
    );
  });

  test("an instant's own local time leads back to it, or to its twin across the change", () => {
    fc.assert(
      fc.property(anyInstant, fc.constantFrom(...ZONES), (instant, timeZone) => {
        const local = localTime(instant, timeZone);
        const first = localTimeToInstant(local, timeZone);
        const second = localTimeToInstant(local, timeZone, "later");
        if (!first.ok || !second.ok || first.note === "gap") return false;
        if (first.note === undefined) return first.instant === instant;
        return first.instant === instant || second.instant === instant;
      }),
      { numRuns: 1000 },
    );
  });

  test("a text that is no instant or zone is a bug", () => {
    expect(() => localDay("2026-03-29", "UTC")).toThrow(RangeError);
    expect(() => localDay("2026-03-29T00:00:00Z", "+01:00")).toThrow(RangeError);
    expect(() => dayBounds("2026-02-30", "UTC")).toThrow(RangeError);
  });
});
