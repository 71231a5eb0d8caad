// Every date of the scenario is counted from the day it is loaded on, so that it never goes stale.
import { Temporal } from "temporal-polyfill";

/** The day on which the scenario is loaded, by the firm's clock. */
export function todayOf(now: Date, timeZone: string): Temporal.PlainDate {
  return Temporal.Instant.fromEpochMilliseconds(now.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate();
}

/**
 * The working day so many working days from today: −1 the last Monday to Friday before it, 1 the
 * next one; 0 is today itself. Two different numbers are never the same day.
 */
export function workingDay(today: Temporal.PlainDate, days: number): Temporal.PlainDate {
  const step = Math.sign(days);
  // After one step the day is a working day, and five of those are a week.
  const weeks = Math.floor(Math.max(Math.abs(days) - 1, 0) / 5);
  let day = today;
  for (let left = Math.abs(days) - weeks * 5; left > 0; ) {
    day = day.add({ days: step });
    if (day.dayOfWeek <= 5) left -= 1;
  }
  return day.add({ weeks: step * weeks });
}

/** A time of day at a place. The scenario uses none at which clocks change. */
export function moment(day: Temporal.PlainDate, clock: string, timeZone: string): Date {
  const zoned = day.toZonedDateTime({ timeZone, plainTime: Temporal.PlainTime.from(clock) });
  return new Date(zoned.epochMilliseconds);
}

export const minutesAfter = (time: Date, minutes: number): Date =>
  new Date(time.getTime() + minutes * 60_000);

/** RFC 3339 with the offset of the place. */
export function localTimeText(time: Date, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(time.getTime())
    .toZonedDateTimeISO(timeZone)
    .toString({ timeZoneName: "never", smallestUnit: "second" });
}
