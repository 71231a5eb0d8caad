// Requirement: what rounds are planned from: crews with working hours, sites with work to do, times
// at which the customer is there, skills the work needs, and drive times (product rule). All times
// are minutes from one start that the caller chooses, such as midnight of the first day.
import type { Travel } from "./travel.ts";

export interface TimeWindow {
  fromMin: number;
  toMin: number;
}

/** One crew on one day; a crew that works on three days is listed three times. */
export interface CrewDay {
  id: string;
  label: string;
  /** Where it starts and ends: a row of the travel table. */
  startPlace: number;
  endPlace: number;
  /** Working hours; the drive out and home lies within. */
  startsMin: number;
  endsMin: number;
  skills?: readonly string[];
  /** What the van carries at most, in the unit of the visits' `load`. */
  loadMost?: number;
}

export interface RoundVisit {
  id: string;
  label: string;
  place: number;
  workMin: number;
  /**
   * The work may begin in any of these; at any time when left out. Of several within one crew's
   * hours the longest is used.
   */
  windows?: readonly TimeWindow[];
  skills?: readonly string[];
  load?: number;
  /** 1 or more; how much worse it is to leave this visit out than one of priority 1. */
  priority?: number;
}

export interface RoundsProblem {
  crewDays: readonly CrewDay[];
  visits: readonly RoundVisit[];
  travel: Travel;
  /** Driving that is worth saving one crew day; 0 when left out. */
  crewDayMin?: number;
}

export const VISITS_MOST = 500;
export const CREW_DAYS_MOST = 100;

/** What is wrong with a problem, in a sentence; undefined where nothing is. */
export function problemWith({ crewDays, visits, travel }: RoundsProblem): string | undefined {
  if (visits.length > VISITS_MOST) return `${visits.length} visits; at most ${VISITS_MOST} fit.`;
  if (crewDays.length > CREW_DAYS_MOST) {
    return `${crewDays.length} crew days; at most ${CREW_DAYS_MOST} fit.`;
  }
  const places = travel.minutes.length;
  for (const table of [travel.minutes, travel.distanceM]) {
    const whole = table.length === places && table.every((row) => row.length === places);
    if (!whole || !table.flat().every((one) => Number.isFinite(one) && one >= 0)) {
      return "The travel table has as many rows as columns and no negative entry.";
    }
  }
  const isPlace = (place: number): boolean =>
    Number.isInteger(place) && place >= 0 && place < places;
  for (const { label, startPlace, endPlace, startsMin, endsMin } of crewDays) {
    if (!isPlace(startPlace) || !isPlace(endPlace)) return `${label}: there is no such place.`;
    if (!(startsMin <= endsMin)) return `${label}: the working hours end before they start.`;
  }
  for (const { label, place, workMin, windows = [], load = 0, priority = 1 } of visits) {
    if (!isPlace(place)) return `${label}: there is no such place.`;
    if (!(workMin >= 0 && Number.isFinite(workMin)))
      return `${label}: the minutes of work are below 0.`;
    if (!(load >= 0 && Number.isFinite(load))) return `${label}: the load is below 0.`;
    if (!(priority >= 1 && Number.isFinite(priority))) return `${label}: the priority is below 1.`;
    if (!windows.every(({ fromMin, toMin }) => fromMin <= toMin)) {
      return `${label}: a window ends before it starts.`;
    }
  }
  return undefined;
}
