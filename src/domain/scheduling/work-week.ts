// Requirement: a crew works when all its people work, by the clocks at the site (product rule).
// Days of the week count as in ISO 8601, Monday 1 to Sunday 7. A local time that the clocks skip or
// repeat is read by RFC 5545 3.3.5, so a working day may be an hour longer or shorter.

import { Temporal } from "temporal-polyfill";
import { plainDate } from "../dates/plain-date.ts";
import { localDay, localTimeToInstant } from "../dates/zone-time.ts";

/** Hours of one day of the week; "08:00" to "17:00", the end later than the start. */
export interface WorkDay {
  weekday: number;
  from: string;
  to: string;
  /** The first day (YYYY-MM-DD) on which they hold; without one, always before. */
  since?: string;
  /** The day on which they no longer hold. */
  until?: string;
}

/** On any one day each day of the week at most once; a day left out is a day off. */
export type WorkWeek = readonly WorkDay[];

/** Half-open: the start is in it, the end is not. Milliseconds since 1970. */
export interface Stretch {
  startMs: number;
  endMs: number;
}

/** Where a firm has said nothing: Monday to Friday, eight to five (common practice, no source). */
export const USUAL_WEEK: WorkWeek = [1, 2, 3, 4, 5].map((weekday) => ({
  weekday,
  from: "08:00",
  to: "17:00",
}));

/** Whether the hours hold on a day (YYYY-MM-DD), whatever weekday it is. */
export const holdsOn = ({ since, until }: WorkDay, day: string): boolean =>
  (since === undefined || since <= day) && (until === undefined || day < until);

/** The hours that hold on a day (YYYY-MM-DD), without their bounds. */
export const weekOn = (week: WorkWeek, day: string): WorkWeek =>
  week
    .filter((hours) => holdsOn(hours, day))
    .map(({ weekday, from, to }) => ({ weekday, from, to }));

/** One week until a day (YYYY-MM-DD), another from that day on. */
export const changedFrom = (before: WorkWeek, after: WorkWeek, day: string): WorkWeek => [
  ...before
    .filter(({ since }) => since === undefined || since < day)
    .map((one) => ({
      ...one,
      until: one.until !== undefined && one.until < day ? one.until : day,
    })),
  ...after
    .filter(({ until }) => until === undefined || day < until)
    .map((one) => ({
      ...one,
      since: one.since !== undefined && one.since > day ? one.since : day,
    })),
];

/** Minutes of a week by its clock times, breaks included. */
export const weekMinutes = (week: WorkWeek): number =>
  week.reduce((sum, { from, to }) => sum + minutesOf(to) - minutesOf(from), 0);

function minutesOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return hours * 60 + minutes;
}

/**
 * The hours of a day (YYYY-MM-DD) in which all of these weeks are at work, by the clocks of the
 * time zone; undefined where that is never. Of no weeks: undefined. Throws RangeError for a time
 * zone or time of day that is none (a bug).
 */
export function dayHours(
  day: string,
  timeZone: string,
  weeks: readonly WorkWeek[],
): Stretch | undefined {
  const { dayOfWeek } = plainDate(day);
  const hours = weeks.map((week) =>
    week.find((one) => one.weekday === dayOfWeek && holdsOn(one, day)),
  );
  if (hours.length === 0) return undefined;
  let from = "00:00";
  let to = "23:59";
  for (const one of hours) {
    if (!one) return undefined;
    if (one.from > from) from = one.from;
    if (one.to < to) to = one.to;
  }
  const startMs = momentMs(day, from, timeZone);
  const endMs = momentMs(day, to, timeZone);
  return startMs < endMs ? { startMs, endMs } : undefined;
}

function momentMs(day: string, clock: string, timeZone: string): number {
  const found = localTimeToInstant(`${day}T${clock}`, timeZone);
  if (!found.ok) throw new RangeError(found.problem);
  return Date.parse(found.instant);
}

/** The day of the time zone's calendar at a moment, in milliseconds since 1970. */
export function dayAt(momentMs: number, timeZone: string): string {
  return localDay(Temporal.Instant.fromEpochMilliseconds(momentMs).toString(), timeZone);
}
