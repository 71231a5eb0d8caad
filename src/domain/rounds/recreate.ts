// Requirement: every visit that fits is placed where it costs least (product rule). Greedy
// insertion with blinks: Christiaens and Vanden Berghe, Transportation Science 54 (2020), from
// memory. A place is tried in one step by the slack kept at each stop.
import { type RoundNetwork, startNode } from "./round-network.ts";
import type { RoundState } from "./round-state.ts";

/** The share of places that are overlooked, so that not every insertion is the greedy one. */
const BLINKS = 0.01;

interface Place {
  after: number;
  round: number;
  cost: number;
}

/** Places what is absent, in an order drawn by chance; gives back what fits nowhere. */
export function recreate(state: RoundState, chance: () => number, absent: number[]): number[] {
  sortAbsent(state.network, chance, absent);
  const left: number[] = [];
  const place: Place = { after: -1, round: -1, cost: 0 };
  for (const visit of absent) {
    findPlace(state, chance, visit, place);
    if (place.round === -1) left.push(visit);
    else state.insert(visit, place.after, place.round);
  }
  return left;
}

function findPlace(state: RoundState, chance: () => number, visit: number, best: Place): void {
  const { network } = state;
  best.round = -1;
  best.cost = Number.POSITIVE_INFINITY;
  let emptySeen = -1;
  for (let round = 0; round < network.rounds; round += 1) {
    if (!state.mayTake(round, visit)) continue;
    if (state.stops[round] === 0) {
      // Empty rounds that are alike are worth the same; they mostly stand side by side.
      if (network.alike[round] === emptySeen) continue;
      emptySeen = network.alike[round] as number;
    }
    tryRound(state, chance, visit, round, best);
  }
}

function tryRound(
  state: RoundState,
  chance: () => number,
  visit: number,
  round: number,
  best: Place,
): void {
  const { next, early, network } = state;
  const { drive, nodes, work, visits } = network;
  const opens = network.opens[round * visits + visit] as number;
  const closes = network.closes[round * visits + visit] as number;
  const end = startNode(network, round) + 1;
  // A round that is not used drives nothing yet, and its crew day is not spent.
  const isUsed = state.stops[round] !== 0;
  for (let after = end - 1; after !== end; after = next[after] as number) {
    const to = next[after] as number;
    const out = drive[after * nodes + visit] as number;
    const arrives = (early[after] as number) + (work[after] as number) + out;
    if (arrives > closes) return;
    const cost =
      out +
      (drive[visit * nodes + to] as number) +
      (isUsed ? -(drive[after * nodes + to] as number) : network.crewDayMin);
    if (cost >= best.cost || chance() < BLINKS) continue;
    if (!state.fitsBefore(visit, Math.max(arrives, opens), to)) continue;
    best.after = after;
    best.round = round;
    best.cost = cost;
  }
}

/** By chance, load, far or near first, or by their windows: shortest, earliest, soonest over. */
function sortAbsent(network: RoundNetwork, chance: () => number, absent: number[]): void {
  const draw = chance() * 17;
  for (let index = absent.length - 1; index > 0; index -= 1) {
    const other = Math.floor(chance() * (index + 1));
    const kept = absent[index] as number;
    absent[index] = absent[other] as number;
    absent[other] = kept;
  }
  if (draw < 4) return;
  const keyOf = keys(network, draw);
  absent.sort((a, b) => keyOf(a) - keyOf(b));
}

function keys(network: RoundNetwork, draw: number): (visit: number) => number {
  const { load, drive, nodes, visits, opens, closes } = network;
  const away = (visit: number): number => drive[visits * nodes + visit] as number;
  if (draw < 8) return (visit) => -(load[visit] as number);
  if (draw < 10) return (visit) => -away(visit);
  if (draw < 11) return away;
  if (draw < 13) return (visit) => (closes[visit] as number) - (opens[visit] as number);
  if (draw < 15) return (visit) => opens[visit] as number;
  return (visit) => closes[visit] as number;
}
