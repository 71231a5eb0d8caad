// Requirement: a crew leaves no sooner than it must (product rule): as late as it can and still be
// home as early as it could be.

import { windowFor } from "./round-network.ts";
import type { Round, RoundStop } from "./rounds-plan.ts";
import type { CrewDay, RoundsProblem, RoundVisit } from "./rounds-problem.ts";

interface Leg {
  visit: RoundVisit;
  opensMin: number;
  closesMin: number;
  driveMin: number;
  distanceM: number;
}

/** One crew day's visits in order, with their times. Throws RangeError where one never fits. */
export function timedRound(
  problem: RoundsProblem,
  crew: CrewDay,
  visits: readonly RoundVisit[],
): Round {
  const { minutes, distanceM } = problem.travel;
  const places = [crew.startPlace, ...visits.map(({ place }) => place), crew.endPlace];
  const legs = visits.map((visit, index): Leg => {
    const window = windowFor(crew, visit);
    if (!window) throw new RangeError(`${visit.label} does not fit ${crew.label}`);
    return {
      visit,
      opensMin: window.fromMin,
      closesMin: window.toMin,
      driveMin: minutes[places[index] as number]?.[visit.place] ?? 0,
      distanceM: distanceM[places[index] as number]?.[visit.place] ?? 0,
    };
  });
  const [from, to] = places.slice(-2) as [number, number];
  const homeMin = minutes[from]?.[to] ?? 0;
  const leavesMin = latestLeave(legs, stopsFrom(legs, crew.startsMin).at(-1), crew.startsMin);
  const stops = stopsFrom(legs, leavesMin);
  const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);
  return {
    crewDayId: crew.id,
    label: crew.label,
    startPlace: crew.startPlace,
    endPlace: crew.endPlace,
    leavesMin,
    returnsMin: (stops.at(-1)?.leavesMin ?? leavesMin) + homeMin,
    driveMin: sum(legs.map((leg) => leg.driveMin)) + homeMin,
    distanceM: sum(legs.map((leg) => leg.distanceM)) + (distanceM[from]?.[to] ?? 0),
    workMin: sum(visits.map(({ workMin }) => workMin)),
    waitMin: sum(stops.map(({ arrivesMin, beginsMin }) => beginsMin - arrivesMin)),
    stops,
  };
}

function stopsFrom(legs: readonly Leg[], leavesMin: number): RoundStop[] {
  let at = leavesMin;
  return legs.map(({ visit, opensMin, driveMin, distanceM }) => {
    const arrivesMin = at + driveMin;
    const beginsMin = Math.max(arrivesMin, opensMin);
    at = beginsMin + visit.workMin;
    const { id: visitId, label, place } = visit;
    const times = { driveMin, distanceM, arrivesMin, beginsMin, leavesMin: at };
    return { visitId, label, place, ...times };
  });
}

/** The latest time to leave that does not put off the end of the last stop. */
function latestLeave(legs: readonly Leg[], last: RoundStop | undefined, startsMin: number): number {
  if (!last) return startsMin;
  let latest = last.leavesMin;
  for (const { visit, closesMin, driveMin } of [...legs].reverse()) {
    latest = Math.min(closesMin, latest - visit.workMin) - driveMin;
  }
  return Math.max(startsMin, latest);
}
