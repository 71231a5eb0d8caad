// Requirement: rounds with little driving, the same again for the same seed (product rule).
// Construction by insertion, then ruin and recreate under simulated annealing (Schrimpf et al.,
// Journal of Computational Physics 159 (2000); Christiaens and Vanden Berghe, Transportation
// Science 54 (2020), from memory) with 2-opt moves between.
import { recreate } from "./recreate.ts";
import { tryReversal } from "./reverse.ts";
import type { RoundNetwork } from "./round-network.ts";
import { RoundState } from "./round-state.ts";
import { ruin } from "./ruin.ts";

/**
 * How long to search: so many iterations (rounded up to 32), or until the share of the effort that
 * is spent, as the caller measures it (by a clock, for instance), is 1 or more.
 */
export type Effort = { iterations: number } | { shareSpent(): number };

const ASK_EVERY = 32;
const REVERSALS = 4;
/** Temperatures as shares of the mean drive to a stop in the first plan; found by trial. */
const HOT = 1;
const COLD = 0.02;

interface Search {
  chance: () => number;
  current: RoundState;
  candidate: RoundState;
  best: RoundState;
  absent: number[];
  cost: number;
  bestCost: number;
}

/** The best state found. */
export function searchRounds(
  network: RoundNetwork,
  effort: Effort,
  chance: () => number,
): RoundState {
  const search = begin(network, chance);
  if (network.visits === 0 || network.rounds === 0) return search.best;
  const mean = meanDrive(search.current);
  let heat = mean * HOT;
  for (let iteration = 0; ; iteration += 1) {
    if (iteration % ASK_EVERY === 0) {
      const spent = "iterations" in effort ? iteration / effort.iterations : effort.shareSpent();
      if (!(spent < 1)) return search.best;
      heat = mean * HOT * (COLD / HOT) ** spent;
    }
    iterate(search, heat);
  }
}

function begin(network: RoundNetwork, chance: () => number): Search {
  const current = new RoundState(network);
  const absent = recreate(current, chance, [...network.leftOut.keys()]);
  const best = new RoundState(network);
  best.copyFrom(current);
  const cost = current.cost();
  const candidate = new RoundState(network);
  return { chance, current, candidate, best, absent, cost, bestCost: cost };
}

function iterate(search: Search, heat: number): void {
  const { chance, current, candidate } = search;
  for (let turn = 0; turn < REVERSALS; turn += 1) {
    search.cost += tryReversal(current, chance, -heat * Math.log(chance()));
  }
  keepIfBest(search);
  candidate.copyFrom(current);
  const out = [...search.absent];
  if (!ruin(candidate, chance, out)) return;
  const left = recreate(candidate, chance, out);
  const cost = candidate.cost();
  if (cost >= search.cost - heat * Math.log(chance())) return;
  search.current = candidate;
  search.candidate = current;
  search.absent = left;
  search.cost = cost;
  keepIfBest(search);
}

function keepIfBest(search: Search): void {
  if (search.cost >= search.bestCost) return;
  search.bestCost = search.cost;
  search.best.copyFrom(search.current);
}

function meanDrive(state: RoundState): number {
  const { network } = state;
  let drive = 0;
  let stops = 0;
  for (let visit = 0; visit < network.visits; visit += 1) {
    if (state.roundOf[visit] === -1) continue;
    stops += 1;
    drive += network.drive[(state.before[visit] as number) * network.nodes + visit] as number;
  }
  return Math.max(drive / Math.max(stops, 1), Number.EPSILON);
}
