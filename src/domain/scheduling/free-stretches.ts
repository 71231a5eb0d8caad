// Requirement: between what a crew has in its diary lies the time that rounds may use: within the
// hours in which all its people work, without their absences, starting where the visit before was
// and ending where the next one is (product rule).
import type { Position } from "../rounds/geodesic.ts";
import type { DiaryCrew } from "./diary-facts.ts";
import { dayHours, type Stretch, type WorkDay } from "./work-week.ts";

/** A stretch with nothing in it; null where the crew comes from, or goes to, its base. */
export interface FreeStretch extends Stretch {
  from: Position | null;
  to: Position | null;
}

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7];

/** The same hours on every day of the week. */
export const daily = (from: string, to: string): WorkDay[] =>
  WEEKDAYS.map((weekday) => ({ weekday, from, to }));

/**
 * Free stretches of a crew on a day (YYYY-MM-DD) in the order of time, by the clocks of the zone.
 * `within` narrows the hours; nothing begins before `notBeforeMs`. None where somebody of the crew
 * does not work that day, or where nobody is in it.
 */
export function freeStretches(
  { people, visits }: DiaryCrew,
  day: string,
  timeZone: string,
  { within, notBeforeMs }: { within: readonly WorkDay[]; notBeforeMs: number },
): FreeStretch[] {
  if (people.length === 0) return [];
  const hours = dayHours(day, timeZone, [...people.map(({ week }) => week), within]);
  if (!hours) return [];
  const taken = [
    ...visits.map(({ startMs, endMs, position }) => ({ startMs, endMs, position })),
    ...people.flatMap(({ away }) => away.map((one) => ({ ...one, position: null }))),
  ].toSorted((a, b) => a.startMs - b.startMs);
  const found: FreeStretch[] = [];
  let startMs = hours.startMs;
  let from: Position | null = null;
  for (const one of taken) {
    if (one.startMs >= hours.endMs) break;
    if (one.startMs > startMs) found.push({ startMs, endMs: one.startMs, from, to: one.position });
    if (one.endMs > startMs) [startMs, from] = [one.endMs, one.position];
  }
  if (startMs < hours.endMs) found.push({ startMs, endMs: hours.endMs, from, to: null });
  return found
    .map((free) => ({ ...free, startMs: Math.max(free.startMs, notBeforeMs) }))
    .filter((free) => free.startMs < free.endMs);
}

/**
 * When a site may be visited on these days, by its own clocks; undefined where its customer has
 * named no hours, which is at any time. Days of the week without hours: not on them.
 */
export function visitStretches(
  hours: readonly WorkDay[],
  days: readonly string[],
  timeZone: string,
): Stretch[] | undefined {
  if (hours.length === 0) return undefined;
  return days.flatMap((day) => hours.flatMap((one) => dayHours(day, timeZone, [[one]]) ?? []));
}
