// Requirement: for a job the first free places in crews' diaries are suggested, each of which the
// booking will take: within the hours of all the crew, with the drive from the visit before and to
// the visit after, by qualified people who are there, with instruments in calibration (product
// rule). Every start that something rules out lies in a bar, an open interval of starts; what lies
// in none is free.

import { dayBounds } from "../dates/zone-time.ts";
import type { Position } from "../rounds/geodesic.ts";
import {
  type Booked,
  type DiaryCrew,
  driveMin,
  driveMs,
  overlap,
  type Wish,
} from "./diary-facts.ts";
import { dayObstacles, type Obstacle, obstaclesWithin } from "./obstacles.ts";
import { dayHours, type Stretch } from "./work-week.ts";

/** Visits begin on quarters of an hour, which are the same on every clock of today. */
export const START_STEP_MS = 15 * 60_000;
const MINUTE_MS = 60_000;

/** A place in a crew's diary: the first of a stretch of starts that are all free. */
export interface Suggestion extends Stretch {
  crewId: string;
  day: string;
  /** The last start of the stretch. */
  latestStartMs: number;
  /** Minutes of driving from what comes before on the day and to what comes after it. */
  driveBeforeMin: number;
  driveAfterMin: number;
  /** Visits before and after it on the day; null for the base, or for nothing known. */
  beforeVisitId: string | null;
  afterVisitId: string | null;
}

export interface DayLook {
  crewId: string;
  day: string;
  suggestions: Suggestion[];
  /** Why the day has no place; empty where it has one. */
  obstacles: Obstacle[];
}

/** Free places of a crew on a day in the order of their start, or what is in the way. */
export function lookAtDay(wish: Wish, crew: DiaryCrew, day: string): DayLook {
  const look = { crewId: crew.id, day };
  const found = dayObstacles(wish, crew, day);
  const weeks = crew.people.map(({ week }) => week);
  const hours = dayHours(day, wish.timeZone, weeks);
  if (found.length > 0 || !hours) return { ...look, suggestions: [], obstacles: found };
  const visits = visitsOnDay(crew, day, wish.timeZone);
  const suggestions = freeStarts(hours, wish, bars(wish, crew, visits, hours)).map((free) =>
    placed(wish, crew.id, day, free, visits),
  );
  const obstacles = suggestions.length > 0 ? [] : obstaclesWithin(wish, crew, hours);
  return { ...look, suggestions, obstacles };
}

/**
 * The first places among crews and days, the earliest start first, of equal ones that with less
 * driving; of a crew and day at most one. `days` of the site's calendar in order.
 */
export function firstFree(
  wish: Wish,
  crews: readonly DiaryCrew[],
  days: readonly string[],
  most: number,
): { suggestions: Suggestion[]; refused: DayLook[] } {
  const suggestions: Suggestion[] = [];
  const refused: DayLook[] = [];
  for (const day of days) {
    const looks = crews.map((crew) => lookAtDay(wish, crew, day));
    refused.push(...looks.filter((look) => look.suggestions.length === 0));
    suggestions.push(...looks.flatMap((look) => look.suggestions.slice(0, 1)));
    if (suggestions.length >= most) break;
  }
  return { suggestions: suggestions.sort(byStart).slice(0, most), refused };
}

function byStart(one: Suggestion, other: Suggestion): number {
  const drive = ({ driveBeforeMin, driveAfterMin }: Suggestion) => driveBeforeMin + driveAfterMin;
  return (
    one.startMs - other.startMs ||
    drive(one) - drive(other) ||
    one.crewId.localeCompare(other.crewId)
  );
}

/** Starts strictly between the two are ruled out. */
interface Bar {
  fromMs: number;
  toMs: number;
}

function bars(
  wish: Wish,
  { people, visits }: DiaryCrew,
  onDay: readonly Booked[],
  hours: Stretch,
): Bar[] {
  const lengthMs = wish.minutes * MINUTE_MS;
  const around = ({ startMs, endMs }: Stretch, driveToMs = 0, driveFromMs = 0): Bar => ({
    fromMs: startMs - lengthMs - driveToMs,
    toMs: endMs + driveFromMs,
  });
  return [
    ...visits.map((visit) => {
      const { position: place } = visit;
      return around(visit, driveMs(wish.position, place), driveMs(place, wish.position));
    }),
    ...people.flatMap(({ away }) => away.map((one) => around(one))),
    ...wish.instruments.flatMap(({ taken }) => taken.map((one) => around(one))),
    ...baseBars(wish, onDay, hours, lengthMs),
  ];
}

/** The first drive of the day comes from the base and the last one leads there. */
function baseBars(wish: Wish, visits: readonly Booked[], hours: Stretch, lengthMs: number): Bar[] {
  const driveOut = driveMs(wish.base, wish.position);
  const driveHome = driveMs(wish.position, wish.base);
  const firstEndMs = Math.min(...visits.map(({ endMs }) => endMs));
  const lastStartMs = Math.max(...visits.map(({ startMs }) => startMs));
  const out = Math.min(hours.startMs + driveOut, firstEndMs);
  const home = Math.max(hours.endMs - lengthMs - driveHome, lastStartMs - lengthMs);
  return [
    { fromMs: Number.NEGATIVE_INFINITY, toMs: out },
    { fromMs: home, toMs: Number.POSITIVE_INFINITY },
  ];
}

interface FreeStarts {
  firstMs: number;
  lastMs: number;
}

function freeStarts(hours: Stretch, wish: Wish, ruledOut: readonly Bar[]): FreeStarts[] {
  const latest = hours.endMs - wish.minutes * MINUTE_MS;
  const end: Bar = { fromMs: latest, toMs: Number.POSITIVE_INFINITY };
  const found: FreeStarts[] = [];
  let at = onStep(Math.max(hours.startMs, wish.notBeforeMs));
  for (const { fromMs, toMs } of [...ruledOut, end].toSorted((a, b) => a.fromMs - b.fromMs)) {
    if (toMs <= at) continue;
    if (at <= fromMs) found.push({ firstMs: at, lastMs: lastStep(Math.min(fromMs, latest)) });
    if (toMs === Number.POSITIVE_INFINITY) break;
    at = onStep(toMs);
  }
  return found.filter(({ firstMs, lastMs }) => firstMs <= lastMs);
}

const onStep = (moment: number): number => Math.ceil(moment / START_STEP_MS) * START_STEP_MS;
const lastStep = (moment: number): number => Math.floor(moment / START_STEP_MS) * START_STEP_MS;

function placed(
  wish: Wish,
  crewId: string,
  day: string,
  { firstMs: startMs, lastMs }: FreeStarts,
  visits: readonly Booked[],
): Suggestion {
  const endMs = startMs + wish.minutes * MINUTE_MS;
  const { before, after } = neighbours({ startMs, endMs }, visits);
  return {
    ...{ crewId, day, startMs, endMs, latestStartMs: lastMs },
    driveBeforeMin: minutesBetween(before?.position ?? wish.base, wish.position),
    driveAfterMin: minutesBetween(wish.position, after?.position ?? wish.base),
    beforeVisitId: before?.visitId ?? null,
    afterVisitId: after?.visitId ?? null,
  };
}

const minutesBetween = (from: Position | null, to: Position | null): number =>
  from && to ? driveMin(from, to) : 0;

/** The visit that ends last before a stretch, and the one that begins first after it. */
export function neighbours<One extends Stretch>(
  { startMs, endMs }: Stretch,
  visits: readonly One[],
): { before: One | undefined; after: One | undefined } {
  const earlier = visits.filter((visit) => visit.endMs <= startMs);
  const later = visits.filter((visit) => visit.startMs >= endMs);
  return {
    before: earlier.toSorted((a, b) => b.endMs - a.endMs)[0],
    after: later.toSorted((a, b) => a.startMs - b.startMs)[0],
  };
}

/** The crew's visits on a day of the time zone's calendar. */
export function visitsOnDay({ visits }: DiaryCrew, day: string, timeZone: string): Booked[] {
  const { start, end } = dayBounds(day, timeZone);
  const whole = { startMs: Date.parse(start), endMs: Date.parse(end) };
  return visits.filter((visit) => overlap(visit, whole));
}
