import { Temporal } from "temporal-polyfill";
import { localTimeToInstant } from "../../domain/dates/zone-time.ts";
import type { CrewDay } from "../../domain/rounds/rounds-problem.ts";
import type { Booked } from "./store.ts";

export const DAY_MIN = 1440;
const MINUTE_MS = 60_000;
/** Less than this between two visits is no room for another one. */
const ROOM_LEAST_MIN = 45;
const LOOK_AHEAD_DAYS = 120;

/** The next `count` days from `first` on that are neither at a weekend nor among the days off. */
export function workingDays(first: string, count: number, daysOff: ReadonlySet<string>): string[] {
  const days: string[] = [];
  let day = Temporal.PlainDate.from(first);
  for (let looked = 0; looked < LOOK_AHEAD_DAYS && days.length < count; looked += 1) {
    if (day.dayOfWeek <= 5 && !daysOff.has(day.toString())) days.push(day.toString());
    day = day.add({ days: 1 });
  }
  return days;
}

/** Minutes from the first day's midnight to a moment, by the firm's clock. */
export function minutesOn(firstDay: string, timeZone: string, moment: Date): number {
  const local = Temporal.Instant.fromEpochMilliseconds(moment.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDateTime();
  const start = Temporal.PlainDate.from(firstDay).toPlainDateTime();
  return start.until(local, { largestUnit: "minutes" }).minutes;
}

/** The moment that the firm's clock shows so many minutes after the first day's midnight. */
export function momentAt(firstDay: string, timeZone: string, minutes: number): Date {
  const local = Temporal.PlainDate.from(firstDay)
    .toPlainDateTime()
    .add({ minutes: Math.floor(minutes) });
  const found = localTimeToInstant(local.toString({ smallestUnit: "minute" }), timeZone);
  if (!found.ok) throw new Error(found.problem);
  return new Date(found.instant);
}

interface Crew {
  id: string;
  name: string;
}

/** For each crew and day the longest stretch of its hours that nothing is booked in. */
export function crewDays(
  crews: readonly Crew[],
  days: readonly string[],
  hours: { startsMin: number; endsMin: number },
  booked: readonly Booked[],
  clock: { firstDay: string; timeZone: string },
): CrewDay[] {
  const dayNumber = (day: string) =>
    Temporal.PlainDate.from(clock.firstDay).until(day, { largestUnit: "days" }).days;
  return days.flatMap((day) =>
    crews.flatMap((crew): CrewDay[] => {
      const from = dayNumber(day) * DAY_MIN + hours.startsMin;
      const to = dayNumber(day) * DAY_MIN + hours.endsMin;
      const taken = booked
        .filter(({ crewId }) => crewId === crew.id)
        .map(({ startsAt, endsAt }) => ({
          from: minutesOn(clock.firstDay, clock.timeZone, startsAt),
          to: minutesOn(clock.firstDay, clock.timeZone, endsAt),
        }));
      const free = longestFree(from, to, taken);
      if (!free || free.to - free.from < ROOM_LEAST_MIN) return [];
      return [
        {
          ...{ id: `${crew.id} ${day}`, label: `${crew.name} ${day}` },
          ...{ startPlace: 0, endPlace: 0, startsMin: free.from, endsMin: free.to },
        },
      ];
    }),
  );
}

function longestFree(
  from: number,
  to: number,
  taken: readonly { from: number; to: number }[],
): { from: number; to: number } | undefined {
  let best: { from: number; to: number } | undefined;
  let at = from;
  for (const one of [...taken.toSorted((a, b) => a.from - b.from), { from: to, to }]) {
    const end = Math.min(one.from, to);
    if (end > at && (!best || end - at > best.to - best.from)) best = { from: at, to: end };
    at = Math.max(at, one.to);
  }
  return best;
}

export const clockMin = (text: string): number =>
  Number(text.slice(0, 2)) * 60 + Number(text.slice(3));

export const addMinutes = (moment: Date, minutes: number): Date =>
  new Date(moment.getTime() + minutes * MINUTE_MS);
