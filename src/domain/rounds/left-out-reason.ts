// Requirement: a visit that is in no round is listed with the reason and the way out, never dropped
// in silence (product rule).
import { windowFor } from "./round-network.ts";
import type { LeftOut, LeftOutReason } from "./rounds-plan.ts";
import type { CrewDay, RoundsProblem, RoundVisit } from "./rounds-problem.ts";

/** Why a visit was left out: what no crew day has, else that the rounds are full. */
export function leftOutReason(problem: RoundsProblem, visit: RoundVisit): LeftOut {
  const [reason, sentence] = reasonFor(problem, visit);
  const { id: visitId, label, place } = visit;
  return { visitId, label, place, reason, sentence: `${label}: ${sentence}` };
}

function reasonFor(
  { crewDays, travel }: RoundsProblem,
  visit: RoundVisit,
): [LeftOutReason, string] {
  const wanted = visit.skills ?? [];
  const skilled = crewDays.filter(({ skills = [] }) =>
    wanted.every((skill) => skills.includes(skill)),
  );
  if (skilled.length === 0) {
    const has = wanted.length > 0 ? `has ${wanted.join(" and ")}` : "is planned";
    return ["skills", `no crew ${has}; plan one that does.`];
  }
  const there = skilled.filter((crew) => windowFor(crew, visit));
  if (there.length === 0) {
    return ["hours", "no such crew works when the site can be visited; agree another time."];
  }
  const carrying = there.filter(
    ({ loadMost = Number.POSITIVE_INFINITY }) => (visit.load ?? 0) <= loadMost,
  );
  if (carrying.length === 0) {
    return ["load", `its load of ${visit.load} is more than any van takes; split it.`];
  }
  if (!carrying.some((crew) => fitsAlone(travel.minutes, crew, visit))) {
    return [
      "too-far",
      "even alone it does not fit a crew's hours; start nearer or split the work.",
    ];
  }
  return ["no-room", "the rounds are full; add a crew day, or plan it for another day."];
}

function fitsAlone(
  minutes: readonly (readonly number[])[],
  crew: CrewDay,
  visit: RoundVisit,
): boolean {
  const window = windowFor(crew, visit);
  if (!window) return false;
  const arrives = crew.startsMin + (minutes[crew.startPlace]?.[visit.place] ?? 0);
  const begins = Math.max(arrives, window.fromMin);
  const home = minutes[visit.place]?.[crew.endPlace] ?? 0;
  return begins <= window.toMin && begins + visit.workMin + home <= crew.endsMin;
}
