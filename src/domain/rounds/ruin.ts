// Requirement: a plan is bettered by taking neighbouring stops out of neighbouring rounds and
// putting them back better (product rule). Slack induction by string removals: Christiaens and
// Vanden Berghe, Transportation Science 54 (2020), from memory, with the numbers given there.
import type { RoundState } from "./round-state.ts";

const STRING_MOST = 10;
const REMOVED_MEAN = 10;
const WHOLE_SHARE = 0.05;
const SPLIT_SHARE = 0.5;
/** How likely a kept middle of a split string ends at each length. */
const MIDDLE_ENDS = 0.99;

/**
 * Takes strings of stops out of rounds near one visit and adds them to `absent`. False where a
 * round no longer keeps its times, which is so only where a way over a stop is shorter than without
 * it.
 */
export function ruin(state: RoundState, chance: () => number, absent: number[]): boolean {
  const { visits, near } = state.network;
  const used = state.stops.reduce((count, stops) => count + (stops > 0 ? 1 : 0), 0);
  if (used === 0) return true;
  const mean = (visits - absent.length) / used;
  // Now and then the strings may be longer than rounds mostly are, so that a whole one can go.
  const longest = chance() < WHOLE_SHARE ? STRING_MOST : Math.min(STRING_MOST, mean);
  const strings = Math.floor(chance() * ((4 * REMOVED_MEAN) / (1 + longest) - 1) + 1);
  const ruined = new Set<number>();
  const seed = Math.floor(chance() * visits);
  ruinAt(state, chance, seed, longest, ruined, absent);
  for (const visit of near[seed] as Int32Array) {
    if (ruined.size >= strings) break;
    ruinAt(state, chance, visit, longest, ruined, absent);
  }
  let keeps = true;
  for (const round of ruined) keeps = state.refresh(round) && keeps;
  return keeps;
}

function ruinAt(
  state: RoundState,
  chance: () => number,
  visit: number,
  longest: number,
  ruined: Set<number>,
  absent: number[],
): void {
  const round = state.roundOf[visit] as number;
  if (round === -1 || ruined.has(round)) return;
  ruined.add(round);
  const stops = state.stops[round] as number;
  const length = Math.floor(1 + chance() * Math.min(stops, longest));
  let middle = 0;
  if (length > 1 && length < stops && chance() < SPLIT_SHARE) {
    middle = 1;
    while (length + middle < stops && chance() > MIDDLE_ENDS) middle += 1;
  }
  const string = stringAround(state, chance, visit, length + middle);
  const keptFrom = middle === 0 ? 0 : 1 + Math.floor(chance() * (length - 1));
  for (let index = 0; index < string.length; index += 1) {
    if (middle > 0 && index >= keptFrom && index < keptFrom + middle) continue;
    state.remove(string[index] as number);
    absent.push(string[index] as number);
  }
}

/** So many stops in a row of one round, the visit among them. */
function stringAround(
  state: RoundState,
  chance: () => number,
  visit: number,
  length: number,
): number[] {
  const { next, before, network } = state;
  const string = [visit];
  let back = Math.floor(chance() * length);
  for (let at = before[visit] as number; back > 0 && at < network.visits; back -= 1) {
    string.unshift(at);
    at = before[at] as number;
  }
  for (let at = next[visit] as number; string.length < length && at < network.visits; ) {
    string.push(at);
    at = next[at] as number;
  }
  for (let at = before[string[0] as number] as number; string.length < length; ) {
    if (at >= network.visits) break;
    string.unshift(at);
    at = before[at] as number;
  }
  return string;
}
