// Requirement: the fewest steps to all goals, or the proof that there are none (product rule).
// A* (Hart, Nilsson, Raphael 1968, from memory) over combinations of levels in which units that may
// stand in for each other keep their levels in order.
import { type Choices, choiceScratch, choicesFor, chooseUnits } from "./level-choices.ts";
import { Combinations, Waiting } from "./level-combinations.ts";
import { alikeOf } from "./level-components.ts";
import { type Estimates, estimate, estimatesFor } from "./level-estimates.ts";
import { NO_WAY, weightsOf } from "./level-projections.ts";
import { type LevelTables, partOf } from "./level-tables.ts";

/** A step in the numbers of the tables that were searched: a place, and the level after it. */
export interface SearchStep {
  unit: number;
  from: number;
  to: number;
}

export interface SearchLimits {
  /** How many combinations are looked at before it gives up as `undecided`. */
  mostSeen: number;
  /** Whether any path will do, which is found sooner than the shortest. */
  anyPath?: boolean;
  /** Combinations of one group of the estimates: more make a shorter search and a longer start. */
  groupMost?: number;
}

const GROUP_MOST = 1500;

export interface Searched {
  found: "path" | "none" | "undecided";
  steps: SearchStep[];
  /** How many combinations were looked at. */
  seen: number;
}

interface Search {
  tables: LevelTables;
  limits: SearchLimits;
  choices: Choices;
  estimates: Estimates;
  weights: readonly number[];
  /** By unit: the last unit of those it may be exchanged with. */
  lastAlike: readonly number[];
  combinations: Combinations;
  waiting: Waiting;
  levels: Int32Array;
  next: Int32Array;
}

/**
 * The fewest steps within `given`; steps carry the unit and level numbers of the original walk.
 * `undecided` after `mostSeen` combinations and where there are more than 2^53 of them.
 */
export function searchLevels(given: LevelTables, limits: SearchLimits): Searched {
  const alike = alikeOf(given);
  const tables = partOf(given, alike.flat(), () => true);
  const { weights, count } = weightsOf(tables.sizes);
  if (count > Number.MAX_SAFE_INTEGER) return { found: "undecided", steps: [], seen: 0 };
  const search: Search = {
    tables,
    limits,
    choices: choicesFor(tables),
    estimates: estimatesFor(tables, limits.groupMost ?? GROUP_MOST),
    weights,
    lastAlike: lastOf(alike),
    combinations: new Combinations(),
    waiting: new Waiting(),
    levels: new Int32Array(tables.sizes.length),
    next: Int32Array.from(tables.starts),
  };
  reach(search, -1, 0, 0);
  return run(search);
}

function lastOf(groups: readonly number[][]): number[] {
  let last = -1;
  return groups.flatMap((group) => {
    last += group.length;
    return group.map(() => last);
  });
}

function run(search: Search): Searched {
  const { tables, combinations, waiting, levels } = search;
  const at = new Int32Array(levels.length);
  const scratch = choiceScratch(levels.length);
  const goal = codeOf(search, tables.goals);
  const done = new Set<number>();
  for (let index = waiting.pop(); index !== undefined; index = waiting.pop()) {
    if (done.has(index)) continue;
    done.add(index);
    const code = combinations.codeOf(index);
    if (code === goal) {
      return { found: "path", steps: replay(search, combinations.wayTo(index)), seen: done.size };
    }
    if (done.size > search.limits.mostSeen)
      return { found: "undecided", steps: [], seen: done.size };
    decode(search, code, at);
    expand(search, index, chooseUnits(tables, search.choices, at, scratch), at);
  }
  return { found: "none", steps: [], seen: done.size };
}

function decode(search: Search, code: number, at: Int32Array): void {
  const { levels, weights, tables } = search;
  for (let unit = levels.length - 1, rest = code; unit >= 0; unit -= 1) {
    const level = Math.floor(rest / (weights[unit] as number));
    rest -= level * (weights[unit] as number);
    levels[unit] = level;
    at[unit] = (tables.places[unit] as number) + level;
  }
}

function expand(search: Search, index: number, chosen: number, at: Int32Array): void {
  const { tables, choices, combinations, levels, next, lastAlike } = search;
  const taken = combinations.takenTo(index) + 1;
  for (let unit = 0; unit < levels.length; unit += 1) {
    if (((chosen >> unit) & 1) === 0) continue;
    const level = levels[unit] as number;
    const last = lastAlike[unit] as number;
    // The last of several alike at one level stands for all: moving up keeps them in order.
    if (unit < last && levels[unit + 1] === level && ((chosen >> (unit + 1)) & 1) === 1) continue;
    for (const edge of choices.edgesOf[at[unit] as number] ?? []) {
      let free = true;
      for (let other = 0; free && other < at.length; other += 1) {
        free = other === unit || tables.barred[edge.row + (at[other] as number)] === 0;
      }
      if (!free) continue;
      next.set(levels);
      let slot = unit;
      for (; slot < last && (next[slot + 1] as number) < edge.to; slot += 1) {
        next[slot] = next[slot + 1] as number;
      }
      next[slot] = edge.to;
      reach(search, index, unit * 256 + edge.to, taken);
    }
  }
}

function reach(search: Search, before: number, moved: number, taken: number): void {
  const left = estimate(search.estimates, search.next);
  if (left === NO_WAY) return;
  const index = search.combinations.reach(codeOf(search, search.next), before, moved, taken);
  if (index >= 0) search.waiting.push(index, search.limits.anyPath ? 0 : taken, left);
}

function codeOf(search: Search, levels: ArrayLike<number>): number {
  let code = 0;
  for (let unit = 0; unit < levels.length; unit += 1) {
    code += (levels[unit] as number) * (search.weights[unit] as number);
  }
  return code;
}

/** The steps again with each unit where it really is, not where its like may stand. */
function replay(search: Search, moves: readonly number[]): SearchStep[] {
  const { tables, lastAlike } = search;
  const inOrder = [...tables.starts];
  const real = [...tables.starts];
  return moves.map((moved) => {
    const to = moved % 256;
    const slot = (moved - to) / 256;
    const from = inOrder[slot] as number;
    const last = lastAlike[slot] as number;
    const unit = real.findIndex((level, one) => level === from && lastAlike[one] === last);
    real[unit] = to;
    let free = slot;
    for (; free < last && (inOrder[free + 1] as number) < to; free += 1) {
      inOrder[free] = inOrder[free + 1] as number;
    }
    inOrder[free] = to;
    const place = tables.places[unit] as number;
    return {
      unit: tables.unitOf[unit] as number,
      from: tables.levelOf[place + from] as number,
      to: tables.levelOf[place + to] as number,
    };
  });
}
