import { Temporal } from "temporal-polyfill";
import { localTimeToInstant } from "../../domain/dates/zone-time.ts";
import type { Position } from "../../domain/rounds/geodesic.ts";
import type { CrewDay, TimeWindow } from "../../domain/rounds/rounds-problem.ts";
import type { DiaryCrew } from "../../domain/scheduling/diary-facts.ts";
import { freeStretches, visitStretches } from "../../domain/scheduling/free-stretches.ts";
import { holdsOn, type WorkDay, type WorkWeek } from "../../domain/scheduling/work-week.ts";

export const DAY_MIN = 1440;
const MINUTE_MS = 60_000;
/** People agree on times in fives. */
export const FIVE = 5;
/** Less than this between two visits is no room for another one. */
const ROOM_LEAST_MIN = 45;
const LOOK_AHEAD_DAYS = 120;

/** The next `count` days from `first` on, no days off, on which one of these weeks has hours. */
export function workingDays(
  first: string,
  count: number,
  daysOff: ReadonlySet<string>,
  weeks: readonly WorkWeek[],
): string[] {
  const days: string[] = [];
  let day = Temporal.PlainDate.from(first);
  for (let looked = 0; looked < LOOK_AHEAD_DAYS && days.length < count; looked += 1) {
    const text = day.toString();
    const isWorked = weeks.some((week) =>
      week.some((one) => one.weekday === day.dayOfWeek && holdsOn(one, text)),
    );
    if (isWorked && !daysOff.has(text)) days.push(text);
    day = day.add({ days: 1 });
  }
  return days;
}

/** The firm's clock: minutes count from the first day's midnight. */
export interface FirmClock {
  firstDay: string;
  timeZone: string;
}

export function minutesOn({ firstDay, timeZone }: FirmClock, momentMs: number): number {
  const local = Temporal.Instant.fromEpochMilliseconds(momentMs)
    .toZonedDateTimeISO(timeZone)
    .toPlainDateTime();
  const start = Temporal.PlainDate.from(firstDay).toPlainDateTime();
  return start.until(local, { largestUnit: "minutes" }).minutes;
}

/** The moment that the firm's clock shows so many minutes after the first day's midnight. */
export function momentAt({ firstDay, timeZone }: FirmClock, minutes: number): Date {
  const local = Temporal.PlainDate.from(firstDay)
    .toPlainDateTime()
    .add({ minutes: Math.floor(minutes) });
  const found = localTimeToInstant(local.toString({ smallestUnit: "minute" }), timeZone);
  if (!found.ok) throw new Error(found.problem);
  return new Date(found.instant);
}

export interface CrewHours {
  within: readonly WorkDay[];
  notBeforeMs: number;
}

/**
 * A crew's free stretches on a day, each a round of its own: from the visit before, or the base, to
 * the next one. `placeOf` gives the row of the travel table.
 */
export function crewDays(
  crew: DiaryCrew,
  day: string,
  clock: FirmClock,
  hours: CrewHours,
  placeOf: (position: Position | null) => number,
): CrewDay[] {
  return freeStretches(crew, day, clock.timeZone, hours).flatMap((free, index) => {
    // Rounded up, so that a start rounded down to fives never falls into what comes before.
    const startsMin = Math.ceil(minutesOn(clock, free.startMs) / FIVE) * FIVE;
    const endsMin = minutesOn(clock, free.endMs);
    if (endsMin - startsMin < ROOM_LEAST_MIN) return [];
    return [
      {
        ...{ id: `${crew.id} ${day} ${index}`, label: `${crew.name} ${day}`, startsMin, endsMin },
        ...{ startPlace: placeOf(free.from), endPlace: placeOf(free.to) },
      },
    ];
  });
}

/** At no time; a site with hours on none of the days is left out for that reason. */
const NEVER: TimeWindow = { fromMin: -1, toMin: -1 };

/** When work at a site may begin so that it ends within the hours its customer has named. */
export function beginWindows(
  hours: readonly WorkDay[],
  workMin: number,
  days: readonly string[],
  siteZone: string,
  clock: FirmClock,
): TimeWindow[] | undefined {
  const windows = visitStretches(hours, days, siteZone)?.map(({ startMs, endMs }) => ({
    fromMin: Math.ceil(minutesOn(clock, startMs) / FIVE) * FIVE,
    toMin: minutesOn(clock, endMs) - workMin,
  }));
  if (!windows) return undefined;
  const usable = windows.filter(({ fromMin, toMin }) => fromMin <= toMin);
  return usable.length > 0 ? usable : [NEVER];
}

export const addMinutes = (moment: Date, minutes: number): Date =>
  new Date(moment.getTime() + minutes * MINUTE_MS);
