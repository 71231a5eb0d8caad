// Common practice, no source: the last working day before, and each thing told once.
import { describe, expect, test } from "vitest";
import { reminderInstant } from "../../../src/domain/calendar/reminder.ts";
import { type VisitStand, whatToTell } from "../../../src/domain/calendar/telling.ts";

const rule = {
  siteZone: "Europe/London",
  firmZone: "Europe/London",
  hour: 10,
  holidays: new Set(["2026-12-25", "2026-12-28"]),
  weekend: new Set([6, 7]),
};

describe("a reminder is due", () => {
  test.each([
    ["the day before", "2026-11-26T08:30:00Z", {}, "2026-11-25T10:00:00Z"],
    ["on Friday for a Monday", "2026-11-30T08:30:00Z", {}, "2026-11-27T10:00:00Z"],
    ["before holidays and a weekend", "2026-12-29T08:30:00Z", {}, "2026-12-24T10:00:00Z"],
    [
      "by the site's calendar",
      "2026-11-26T03:00:00Z",
      { siteZone: "America/New_York" },
      "2026-11-24T10:00:00Z",
    ],
    [
      "by the firm's clock",
      "2026-11-26T15:00:00Z",
      { firmZone: "America/New_York" },
      "2026-11-25T15:00:00Z",
    ],
    ["in summer time", "2026-07-16T08:30:00Z", {}, "2026-07-15T09:00:00Z"],
    ["at midnight", "2026-11-26T08:30:00Z", { hour: 0 }, "2026-11-25T00:00:00Z"],
    [
      "where Friday and Saturday are off",
      "2026-11-29T08:30:00Z",
      { weekend: new Set([5, 6]) },
      "2026-11-26T10:00:00Z",
    ],
  ])("%s", (_when, start, other, due) => {
    expect(reminderInstant(start, { ...rule, ...other })).toBe(due);
  });

  test("not by an hour that is none", () => {
    expect(() => reminderInstant("2026-11-26T08:30:00Z", { ...rule, hour: 24 })).toThrow(
      RangeError,
    );
  });
});

describe("a customer is told", () => {
  const booked: VisitStand = {
    state: "booked",
    startsAt: "2026-11-26T08:30:00.000Z",
    endsAt: "2026-11-26T12:00:00.000Z",
  };
  const later = { ...booked, startsAt: "2026-11-26T09:30:00.000Z" };
  const longer = { ...booked, endsAt: "2026-11-26T13:00:00.000Z" };
  const off = { ...booked, state: "cancelled" } as const;
  test.each<[string, VisitStand, VisitStand | undefined, string | undefined]>([
    ["of a booking", booked, undefined, "confirmation"],
    ["nothing twice", booked, booked, undefined],
    ["of another start", later, booked, "change"],
    ["of another end", longer, booked, "change"],
    ["of a cancellation", off, booked, "cancellation"],
    ["of a cancellation of other hours", off, later, "cancellation"],
    ["nothing of what they never knew", off, undefined, undefined],
    ["of a cancellation once", off, off, undefined],
    ["of a booking after a cancellation", booked, off, "confirmation"],
  ])("%s", (_what, now, told, kind) => {
    expect(whatToTell(now, told)).toBe(kind);
  });
});
