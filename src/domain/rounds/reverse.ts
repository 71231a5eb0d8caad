// Requirement: a round does not cross its own way without need (product rule). The 2-opt move
// (Croes, Operations Research 6 (1958)): the way between two stops is driven the other way round.
import type { RoundState } from "./round-state.ts";

const NEIGHBOURS = 10;

/**
 * Tries one reversal that joins a visit drawn by chance to one near it; it stays where the round
 * keeps its times and costs at most `allowed` more. What it costs more, 0 where nothing was done.
 */
export function tryReversal(state: RoundState, chance: () => number, allowed: number): number {
  const { network, roundOf, before, next } = state;
  const near = network.near[Math.floor(chance() * network.visits)] as Int32Array;
  const a = near[Math.floor(chance() * Math.min(NEIGHBOURS, near.length))] as number;
  const b = near[Math.floor(chance() * Math.min(NEIGHBOURS, near.length))] as number;
  const round = roundOf[a] as number;
  if (a === b || round === -1 || round !== roundOf[b]) return 0;
  const [first, last] = comesBefore(state, a, b) ? [a, b] : [b, a];
  // Either the way after the first up to the last, or from the first to before the last.
  const [from, to] =
    chance() < 0.5 ? [next[first] as number, last] : [first, before[last] as number];
  if (from === to || from >= network.visits || to >= network.visits) return 0;
  if (comesBefore(state, to, from)) return 0;
  const more = costOfReversal(state, from, to);
  if (more > allowed) return 0;
  reverse(state, from, to);
  if (state.refresh(round)) return more;
  reverse(state, to, from);
  state.refresh(round);
  return 0;
}

/** In one round: the earlier begun comes first, unless no time passes between. */
function comesBefore(state: RoundState, a: number, b: number): boolean {
  const [earlyA, earlyB] = [state.early[a] as number, state.early[b] as number];
  if (earlyA !== earlyB) return earlyA < earlyB;
  for (let at = a; at !== -1; at = state.next[at] as number) if (at === b) return true;
  return false;
}

function costOfReversal(state: RoundState, from: number, to: number): number {
  const { network, before, next } = state;
  const { drive, nodes } = network;
  const [outer, inner] = [before[from] as number, next[to] as number];
  let more =
    (drive[outer * nodes + to] as number) +
    (drive[from * nodes + inner] as number) -
    (drive[outer * nodes + from] as number) -
    (drive[to * nodes + inner] as number);
  if (network.sameBothWays) return more;
  for (let at = from; at !== to; at = next[at] as number) {
    const after = next[at] as number;
    more += (drive[after * nodes + at] as number) - (drive[at * nodes + after] as number);
  }
  return more;
}

function reverse(state: RoundState, from: number, to: number): void {
  const { before, next } = state;
  const [outer, inner] = [before[from] as number, next[to] as number];
  for (let at = from; at !== inner; ) {
    const after = next[at] as number;
    next[at] = before[at] as number;
    before[at] = after;
    at = after;
  }
  next[outer] = to;
  before[to] = outer;
  next[from] = inner;
  before[inner] = from;
}
