// Requirement: where a visit does not fit it is said what is in the way: who, when, which
// instrument, which qualification and when it ended (product rule). Obstacles are values; sentences
// are made of them where they are told.

import { type DiaryCrew, overlap, type Wish } from "./diary-facts.ts";
import { type Lack, lacking } from "./qualified.ts";
import { dayHours, type Stretch } from "./work-week.ts";

/** What is in the way. Moments are milliseconds since 1970, days those of the site. */
export type Obstacle =
  | { what: "holiday"; day: string }
  | { what: "day-off"; day: string }
  | ({ what: "not-qualified"; day: string } & Lack)
  | { what: "out-of-calibration"; instrumentId: string; reference: string; endedOn: string | null }
  | { what: "retired"; instrumentId: string; reference: string; endedOn: string }
  | ({ what: "away"; personId: string; name: string; absenceId: string } & Stretch)
  | ({ what: "booked"; visitId: string; jobReference: string } & Stretch)
  | ({
      what: "instrument-taken";
      instrumentId: string;
      reference: string;
      visitId: string;
      jobReference: string;
    } & Stretch)
  | ({ what: "too-short"; minutes: number } & Stretch);

/** What rules the whole day out, whatever the hour; empty where nothing does. */
export function dayObstacles(wish: Wish, crew: DiaryCrew, day: string): Obstacle[] {
  if (wish.daysOff.has(day)) return [{ what: "holiday", day }];
  const weeks = crew.people.map(({ week }) => week);
  if (!dayHours(day, wish.timeZone, weeks)) return [{ what: "day-off", day }];
  const lacks = lacking(crew.people, wish.requirements, wish.held, day);
  return [
    ...lacks.map((lack): Obstacle => ({ what: "not-qualified", day, ...lack })),
    ...instrumentObstacles(wish, day),
  ];
}

/** Instruments that may not be used for readings on the day. */
export function instrumentObstacles(
  { instruments }: Pick<Wish, "instruments">,
  day: string,
): Obstacle[] {
  return instruments.flatMap(({ id, reference, inDateTo, retiredOn }): Obstacle[] => {
    if (retiredOn !== null && retiredOn <= day) {
      return [{ what: "retired", instrumentId: id, reference, endedOn: retiredOn }];
    }
    if (inDateTo !== null && day <= inDateTo) return [];
    return [{ what: "out-of-calibration", instrumentId: id, reference, endedOn: inDateTo }];
  });
}

/**
 * What takes up a day in which no place was found; the hours themselves where nothing else does.
 */
export function obstaclesWithin(wish: Wish, crew: DiaryCrew, hours: Stretch): Obstacle[] {
  const busy = busyDuring(wish, crew, hours);
  if (busy.length > 0) return busy;
  const startMs = Math.min(hours.endMs, Math.max(hours.startMs, wish.notBeforeMs));
  return [{ what: "too-short", minutes: wish.minutes, startMs, endMs: hours.endMs }];
}

/** Who and what is taken during a stretch, in the order of its start. */
export function busyDuring(
  { instruments }: Pick<Wish, "instruments">,
  { people, visits }: Pick<DiaryCrew, "people" | "visits">,
  hours: Stretch,
): Obstacle[] {
  const found: (Obstacle & Stretch)[] = [
    ...people.flatMap(({ id: personId, name, away }) =>
      away.map((one) => ({ what: "away" as const, personId, name, ...one })),
    ),
    ...visits.map(({ visitId, jobReference, startMs, endMs }) => ({
      ...{ what: "booked" as const, visitId, jobReference, startMs, endMs },
    })),
    ...instruments.flatMap(({ id: instrumentId, reference, taken }) =>
      taken.map((one) => ({ what: "instrument-taken" as const, instrumentId, reference, ...one })),
    ),
  ];
  return found
    .filter((one) => overlap(one, hours))
    .toSorted((a, b) => a.startMs - b.startMs || a.what.localeCompare(b.what));
}
