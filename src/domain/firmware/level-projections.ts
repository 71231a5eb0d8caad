// Requirement: a search over many units must see dead ends early (product rule). What a few units
// cannot do by themselves, all of them together cannot do either: distances within such small
// groups never overestimate, and those of groups without a common unit may be added (pattern
// databases; Culberson and Schaeffer 1998, Korf and Felner 2002, from memory).
import type { LevelTables } from "./level-tables.ts";

export const NO_WAY = 65_535;

/** Fewest steps to the goals for one group of units, by code: the sum of level times weight. */
export interface Projection {
  units: readonly number[];
  weights: readonly number[];
  /** NO_WAY where no way leads. */
  distances: Uint16Array;
}

/** One group: breadth first, backwards from its goals. */
export function projectOnto(tables: LevelTables, units: readonly number[]): Projection {
  const { weights, count } = weightsOf(units.map((unit) => tables.sizes[unit] as number));
  const distances = new Uint16Array(count).fill(NO_WAY);
  const before = units.map((unit) => precedersOf(tables, unit));
  spread(tables, units, weights, before, tables.goals, distances);
  return { units, weights, distances };
}

/**
 * Bars what the group by itself rules out: a pair of levels that lies on none of its ways from
 * start to goal. The pairs of units for which that was news; `stuck` where it has no way at all.
 */
export function narrowBy(
  tables: LevelTables,
  units: readonly number[],
): "stuck" | [number, number][] {
  const { weights, distances } = projectOnto(tables, units);
  const reached = new Uint16Array(distances.length).fill(NO_WAY);
  const after = units.map((unit) =>
    tables.followers.slice(
      tables.places[unit],
      (tables.places[unit] as number) + (tables.sizes[unit] as number),
    ),
  );
  spread(tables, units, weights, after, tables.starts, reached);
  if (reached[codeOf(units, weights, tables.goals)] === NO_WAY) return "stuck";
  const news: [number, number][] = [];
  for (let a = 0; a < units.length; a += 1) {
    for (let b = a + 1; b < units.length; b += 1) {
      const seen = pairsSeen(tables, units, weights, [a, b], reached, distances);
      const pair: [number, number] = [units[a] as number, units[b] as number];
      if (barUnseen(tables, ...pair, seen)) news.push(pair);
    }
  }
  return news;
}

/** Breadth first from one combination along `moves` (by unit of the group and level). */
function spread(
  tables: LevelTables,
  units: readonly number[],
  weights: readonly number[],
  moves: readonly (readonly (readonly number[])[])[],
  from: readonly number[],
  distances: Uint16Array,
): void {
  const { barred, places } = tables;
  const all = tables.levelOf.length;
  const at = new Int32Array(units.length);
  const first = codeOf(units, weights, from);
  distances[first] = 0;
  const waiting = [first];
  for (let head = 0; head < waiting.length; head += 1) {
    const code = waiting[head] as number;
    for (let index = units.length - 1, rest = code; index >= 0; index -= 1) {
      const level = Math.floor(rest / (weights[index] as number));
      rest -= level * (weights[index] as number);
      at[index] = level;
    }
    for (let index = 0; index < units.length; index += 1) {
      const level = at[index] as number;
      for (const to of moves[index]?.[level] ?? []) {
        const next = code + (to - level) * (weights[index] as number);
        if (distances[next] !== NO_WAY) continue;
        const row = ((places[units[index] as number] as number) + to) * all;
        let free = true;
        for (let other = 0; free && other < units.length; other += 1) {
          const place = (places[units[other] as number] as number) + (at[other] as number);
          free = other === index || barred[row + place] === 0;
        }
        if (!free) continue;
        distances[next] = (distances[code] as number) + 1;
        waiting.push(next);
      }
    }
  }
}

/** Which pairs of levels lie on a way: by level of the first, then of the second. */
function pairsSeen(
  tables: LevelTables,
  units: readonly number[],
  weights: readonly number[],
  [a, b]: readonly [number, number],
  reached: Uint16Array,
  distances: Uint16Array,
): Uint8Array {
  const [sizeA, sizeB] = [a, b].map((index) => tables.sizes[units[index] as number] as number);
  const seen = new Uint8Array((sizeA as number) * (sizeB as number));
  for (let code = 0; code < reached.length; code += 1) {
    if (reached[code] === NO_WAY || distances[code] === NO_WAY) continue;
    const levelA = Math.floor(code / (weights[a] as number)) % (sizeA as number);
    const levelB = Math.floor(code / (weights[b] as number)) % (sizeB as number);
    seen[levelA * (sizeB as number) + levelB] = 1;
  }
  return seen;
}

function barUnseen(tables: LevelTables, a: number, b: number, seen: Uint8Array): boolean {
  const { barred, places, sizes } = tables;
  const all = tables.levelOf.length;
  let changed = false;
  for (let index = 0; index < seen.length; index += 1) {
    if (seen[index] === 1) continue;
    const placeA = (places[a] as number) + Math.floor(index / (sizes[b] as number));
    const placeB = (places[b] as number) + (index % (sizes[b] as number));
    changed ||= barred[placeA * all + placeB] === 0;
    barred[placeA * all + placeB] = 1;
    barred[placeB * all + placeA] = 1;
  }
  return changed;
}

function codeOf(
  units: readonly number[],
  weights: readonly number[],
  levels: readonly number[],
): number {
  return units.reduce((sum, unit, i) => sum + (levels[unit] as number) * (weights[i] as number), 0);
}

function precedersOf(tables: LevelTables, unit: number): number[][] {
  const place = tables.places[unit] as number;
  const before = Array.from({ length: tables.sizes[unit] as number }, (): number[] => []);
  for (const from of before.keys()) {
    for (const to of tables.followers[place + from] ?? []) before[to]?.push(from);
  }
  return before;
}

/** What each digit counts, least first, and how many combinations there are. */
export function weightsOf(sizes: readonly number[]): { weights: number[]; count: number } {
  let count = 1;
  const weights = sizes.map((size) => {
    count *= size;
    return count / size;
  });
  return { weights, count };
}

/** Every choice of `size` of them, in order. */
export function choicesOf(all: readonly number[], size: number): number[][] {
  if (size === 0) return [[]];
  return all.flatMap((first, index) =>
    choicesOf(all.slice(index + 1), size - 1).map((rest) => [first, ...rest]),
  );
}
