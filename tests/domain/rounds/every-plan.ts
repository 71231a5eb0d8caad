import type { RoundsPlan } from "../../../src/domain/rounds/rounds-plan.ts";
import type {
  CrewDay,
  RoundsProblem,
  RoundVisit,
} from "../../../src/domain/rounds/rounds-problem.ts";

const LEFT_OUT = 1e6;

/** What a plan costs: driving, crew days used, and far more what is left out. */
export function costOf(problem: RoundsProblem, plan: RoundsPlan): number {
  const left = plan.leftOut.map(
    ({ visitId }) => problem.visits.find(({ id }) => id === visitId)?.priority ?? 1,
  );
  const days = plan.rounds.length * (problem.crewDayMin ?? 0);
  return plan.driveMin + days + left.reduce((sum, priority) => sum + priority * LEFT_OUT, 0);
}

/**
 * The least cost of all: every visit in every place of every crew's round, or left out. Of several
 * windows the longest within the crew's hours counts, as the problem says.
 */
export function bestByTryingAll(problem: RoundsProblem): number {
  const tryFrom = (index: number, orders: RoundVisit[][], left: number): number => {
    const visit = problem.visits[index];
    if (!visit) return left * LEFT_OUT + drivenBy(problem, orders);
    let best = tryFrom(index + 1, orders, left + (visit.priority ?? 1));
    for (const [crew, order] of orders.entries()) {
      for (let place = 0; place <= order.length; place += 1) {
        const longer = [...order.slice(0, place), visit, ...order.slice(place)];
        const next = orders.map((old, other) => (other === crew ? longer : old));
        best = Math.min(best, tryFrom(index + 1, next, left));
      }
    }
    return best;
  };
  return tryFrom(
    0,
    problem.crewDays.map(() => []),
    0,
  );
}

function drivenBy(problem: RoundsProblem, orders: readonly RoundVisit[][]): number {
  const costs = problem.crewDays.map((crew, index) => {
    const order = orders[index]!;
    if (order.length === 0) return 0;
    return (problem.crewDayMin ?? 0) + roundCost(problem, crew, order);
  });
  return costs.reduce((sum, cost) => sum + cost, 0);
}

function roundCost({ travel }: RoundsProblem, crew: CrewDay, order: RoundVisit[]): number {
  let place = crew.startPlace;
  let time = crew.startsMin;
  let drive = 0;
  let load = 0;
  for (const visit of order) {
    const minutes = travel.minutes[place]![visit.place]!;
    const window = longestWindow(crew, visit);
    load += visit.load ?? 0;
    if (!window || load > (crew.loadMost ?? Number.POSITIVE_INFINITY))
      return Number.POSITIVE_INFINITY;
    if ((visit.skills ?? []).some((skill) => !crew.skills?.includes(skill))) {
      return Number.POSITIVE_INFINITY;
    }
    const begins = Math.max(time + minutes, window[0]);
    if (begins > window[1]) return Number.POSITIVE_INFINITY;
    drive += minutes;
    time = begins + visit.workMin;
    place = visit.place;
  }
  const home = travel.minutes[place]![crew.endPlace]!;
  return time + home > crew.endsMin ? Number.POSITIVE_INFINITY : drive + home;
}

function longestWindow(crew: CrewDay, visit: RoundVisit): [number, number] | undefined {
  const windows = visit.windows ?? [{ fromMin: crew.startsMin, toMin: crew.endsMin }];
  return windows
    .map(({ fromMin, toMin }): [number, number] => [
      Math.max(fromMin, crew.startsMin),
      Math.min(toMin, crew.endsMin),
    ])
    .filter(([from, to]) => from <= to)
    .sort(([fromA, toA], [fromB, toB]) => toB - fromB - (toA - fromA))[0];
}
