// Requirement: what a place in the diary is judged by: who is there and qualified, what is booked
// where, which instruments are in calibration, and how long the drives are (product rule; the
// database refuses double bookings by itself). Moments are milliseconds since 1970, days are those
// of the site's calendar.

import type { Position } from "../rounds/geodesic.ts";
import { estimatedTravel } from "../rounds/travel.ts";
import type { Crewman, Held, Requirement } from "./qualified.ts";
import type { Stretch, WorkWeek } from "./work-week.ts";

/** A visit that the crew, or one of its people with another crew, is booked for. */
export interface Booked extends Stretch {
  visitId: string;
  jobReference: string;
  position: Position;
}

export interface Away extends Stretch {
  absenceId: string;
}

export interface DiaryPerson extends Crewman {
  week: WorkWeek;
  away: readonly Away[];
}

export interface DiaryCrew {
  id: string;
  name: string;
  people: readonly DiaryPerson[];
  /** Visits of the crew and of each of its people, each once. */
  visits: readonly Booked[];
}

export interface DiaryInstrument {
  id: string;
  reference: string;
  /** The last day of its last passed calibration; null when it has none. */
  inDateTo: string | null;
  /** The first day on which it is no longer used. */
  retiredOn: string | null;
  taken: readonly (Stretch & { visitId: string; jobReference: string })[];
}

/** What is to be placed, and the days and rules it is placed by. */
export interface Wish {
  minutes: number;
  position: Position;
  timeZone: string;
  /** Nothing begins before it. */
  notBeforeMs: number;
  daysOff: ReadonlySet<string>;
  requirements: readonly Requirement[];
  held: readonly Held[];
  instruments: readonly DiaryInstrument[];
  /** Where crews start from and come home to, within their hours; null where that is not known. */
  base: Position | null;
}

const MINUTE_MS = 60_000;

/** Estimated minutes of driving between two places, rounded up (see estimatedTravel). */
export function driveMin(from: Position, to: Position): number {
  const minutes = estimatedTravel([from, to]).minutes[0]?.[1] ?? 0;
  return Math.ceil(minutes);
}

/** The same in milliseconds; none where one of the places is not known. */
export function driveMs(from: Position | null, to: Position | null): number {
  return from && to ? driveMin(from, to) * MINUTE_MS : 0;
}

/** Whether two half-open stretches have a moment in common. */
export function overlap(one: Stretch, other: Stretch): boolean {
  return one.startMs < other.endMs && other.startMs < one.endMs;
}
