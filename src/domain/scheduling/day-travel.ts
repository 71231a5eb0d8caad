// Requirement: between the visits of a crew's day the drive is shown, and a drive that does not fit
// between them is pointed out (product rule). Drives are the estimate of rounds/travel.ts.

import type { Position } from "../rounds/geodesic.ts";
import { driveMin } from "./diary-facts.ts";
import type { Stretch } from "./work-week.ts";

export interface DayVisit extends Stretch {
  visitId: string;
  position: Position;
}

/** The drive to a visit: from the visit before, or from the base where it is the day's first. */
export interface Leg {
  visitId: string;
  /** Null for the base. */
  fromVisitId: string | null;
  driveMin: number;
  /** Minutes between the end of the visit before and the start of this one; null from the base. */
  roomMin: number | null;
  isTight: boolean;
}

const MINUTE_MS = 60_000;

/** The drives of one day, in the order of the visits' start; none to the first without a base. */
export function dayTravel(visits: readonly DayVisit[], base: Position | null): Leg[] {
  const sorted = visits.toSorted((a, b) => a.startMs - b.startMs || a.endMs - b.endMs);
  return sorted.flatMap((visit, index): Leg[] => {
    const before = sorted[index - 1];
    const from = before?.position ?? base;
    if (!from) return [];
    const minutes = driveMin(from, visit.position);
    const roomMin = before ? (visit.startMs - before.endMs) / MINUTE_MS : null;
    return [
      {
        ...{ visitId: visit.visitId, fromVisitId: before?.visitId ?? null, driveMin: minutes },
        ...{ roomMin, isTight: roomMin !== null && roomMin < minutes },
      },
    ];
  });
}
