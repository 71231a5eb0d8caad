// Hours that change on a day: by the product's rule the old ones hold before it, the new ones on it
// and after. Weekdays by the ISO 8601 calendar: 7 December 2026 is a Monday.
import { expect, test } from "vitest";
import {
  changedFrom,
  dayHours,
  type WorkWeek,
  weekOn,
} from "../../../src/domain/scheduling/work-week.ts";

const MONDAYS: WorkWeek = [{ weekday: 1, from: "08:00", to: "12:00" }];
const EARLY: WorkWeek = [{ weekday: 1, from: "06:00", to: "10:00" }];
const NONE: WorkWeek = [];

test.each([
  ["2026-11-30", "08:00"],
  ["2026-12-06", "08:00"],
  ["2026-12-07", "06:00"],
  ["2026-12-14", "06:00"],
])("on %s the week begins at %s", (day, from) => {
  const week = changedFrom(MONDAYS, EARLY, "2026-12-07");
  expect(weekOn(week, day)).toEqual([expect.objectContaining({ weekday: 1, from })]);
});

test("a change of a change keeps the first where the second has not begun", () => {
  const twice = changedFrom(changedFrom(MONDAYS, EARLY, "2026-12-07"), NONE, "2026-12-14");
  expect(
    ["2026-11-30", "2026-12-07", "2026-12-14"].map((day) => weekOn(twice, day).length),
  ).toEqual([1, 1, 0]);
  const before = changedFrom(changedFrom(MONDAYS, EARLY, "2026-12-07"), NONE, "2026-12-01");
  expect(weekOn(before, "2026-12-07")).toEqual([]);
  expect(weekOn(before, "2026-11-30")).toHaveLength(1);
});

test("the hours of a day are those that hold on it", () => {
  const week = changedFrom(MONDAYS, EARLY, "2026-12-07");
  const startOf = (day: string) => {
    const hours = dayHours(day, "Europe/London", [week]);
    return hours && new Date(hours.startMs).toISOString();
  };
  expect(startOf("2026-11-30")).toBe("2026-11-30T08:00:00.000Z");
  expect(startOf("2026-12-07")).toBe("2026-12-07T06:00:00.000Z");
  expect(startOf("2026-12-08")).toBeUndefined();
});
