// Requirement: the levels of a model stand in the order of its scheme, and an update leads upwards
// only (product rule). What cannot be ordered is said, not guessed.
import { inLevelRange, type LevelRange } from "./level-range.ts";
import { compareLevels } from "./levels.ts";
import type { OrderModel, OrderRelease, OrderUnit } from "./order-request.ts";

/** Levels of one model that the search tells apart. */
export const LEVELS_MOST = 64;

/** The levels of one model, lowest first, with what was released at them. */
export interface Ladder {
  model: OrderModel;
  levels: readonly string[];
  releases: readonly (OrderRelease | undefined)[];
  /** By level: the levels that are higher. */
  higher: readonly (readonly number[])[];
}

type Read<T> = { ok: true; value: T } | { ok: false; problem: string };

/** A model's levels: its releases and where its units are and go. Refuses what has no order. */
export function ladderOf(model: OrderModel, units: readonly OrderUnit[]): Read<Ladder> {
  const own = units.filter(({ modelCode }) => modelCode === model.code);
  const named = own.flatMap(({ level, targetLevel }) => [level, targetLevel ?? level]);
  const levels = [...new Set([...model.releases.map(({ level }) => level), ...named])];
  if (levels.length > LEVELS_MOST) {
    const problem = `${model.code} has ${levels.length} levels; at most ${LEVELS_MOST} fit.`;
    return { ok: false, problem };
  }
  for (const level of levels) {
    const read = compareLevels(model.scheme, level, level);
    if (!read.ok) return { ok: false, problem: `${model.code}: ${read.problem}` };
  }
  const order = (a: string, b: string): number => {
    const compared = compareLevels(model.scheme, a, b);
    return compared.ok ? compared.order : 0;
  };
  levels.sort(order);
  const releases = levels.map((level) => model.releases.find((one) => one.level === level));
  const higher = levels.map((level, from) =>
    [...levels.keys()].filter((to) => to > from && order(level, levels[to] ?? level) < 0),
  );
  return { ok: true, value: { model, levels, releases, higher } };
}

/** By level of the ladder: whether it lies in the range. Refuses bounds that have no order. */
export function insideRange(ladder: Ladder, range: LevelRange): Read<readonly boolean[]> {
  const inside: boolean[] = [];
  for (const level of ladder.levels) {
    const read = inLevelRange(ladder.model.scheme, level, range);
    if (!read.ok) return { ok: false, problem: `${ladder.model.code}: ${read.problem}` };
    inside.push(read.inside);
  }
  return { ok: true, value: inside };
}
