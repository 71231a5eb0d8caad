// Requirement: the search looks first where the least is left to do (product rule). Distances
// within groups that share no unit are added, and of several such ways to split the units the best
// counts; all of it never overestimates (Korf and Felner 2002, from memory).
import { NO_WAY, type Projection, projectOnto } from "./level-projections.ts";
import type { LevelTables } from "./level-tables.ts";

const SPLITS = 6;

/** Ways to split all units into groups, each group a projection. */
export type Estimates = readonly (readonly Projection[])[];

/**
 * Splits for one walk: units that clash most are put together, from several first units on. No
 * group has more than `groupMost` combinations, but for a single unit.
 */
export function estimatesFor(tables: LevelTables, groupMost: number): Estimates {
  const known = new Map<string, Projection>();
  const units = tables.sizes.map((_, unit) => unit);
  const splits: Projection[][] = [];
  for (let turn = 0; turn < SPLITS; turn += 1) {
    const groups = split(tables, groupMost, [...units.slice(turn), ...units.slice(0, turn)]);
    splits.push(groups.map((group) => projected(tables, group, known)));
  }
  return splits;
}

function projected(
  tables: LevelTables,
  group: readonly number[],
  known: Map<string, Projection>,
): Projection {
  const sorted = [...group].sort((a, b) => a - b);
  const key = sorted.join();
  const projection = known.get(key) ?? projectOnto(tables, sorted);
  known.set(key, projection);
  return projection;
}

/** Groups as large as allowed, each grown by the unit that clashes most with it. */
function split(tables: LevelTables, groupMost: number, order: readonly number[]): number[][] {
  const free = [...order];
  const groups: number[][] = [];
  for (let seed = free.shift(); seed !== undefined; seed = free.shift()) {
    const group = [seed];
    let count = tables.sizes[seed] as number;
    for (;;) {
      const fitting = free.filter((unit) => count * (tables.sizes[unit] as number) <= groupMost);
      const scores = fitting.map((unit) => tension(tables, group, unit));
      const best = fitting[scores.indexOf(Math.max(...scores))];
      if (best === undefined) break;
      group.push(best);
      free.splice(free.indexOf(best), 1);
      count *= tables.sizes[best] as number;
    }
    groups.push(group);
  }
  return groups;
}

/** How many pairs of levels of a unit and a group are barred. */
function tension(tables: LevelTables, group: readonly number[], unit: number): number {
  const all = tables.levelOf.length;
  let barred = 0;
  for (const other of group) {
    for (let a = 0; a < (tables.sizes[unit] as number); a += 1) {
      const row = ((tables.places[unit] as number) + a) * all + (tables.places[other] as number);
      for (let b = 0; b < (tables.sizes[other] as number); b += 1) {
        barred += tables.barred[row + b] as number;
      }
    }
  }
  return barred;
}

/** Steps still needed at least from these levels; NO_WAY in a dead end. */
export function estimate(estimates: Estimates, levels: Int32Array): number {
  let best = 0;
  for (let index = 0; index < estimates.length; index += 1) {
    const groups = estimates[index] as readonly Projection[];
    let sum = 0;
    for (let g = 0; g < groups.length; g += 1) {
      const { units, weights, distances } = groups[g] as Projection;
      let code = 0;
      for (let i = 0; i < units.length; i += 1) {
        code += (levels[units[i] as number] as number) * (weights[i] as number);
      }
      const distance = distances[code] as number;
      if (distance === NO_WAY) return NO_WAY;
      sum += distance;
    }
    if (sum > best) best = sum;
  }
  return best;
}
