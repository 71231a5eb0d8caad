// Requirement: the fewest single steps that bring all units of a site to their goals with no clash
// on the way, or the units that stand in the way (product rule). First what small groups rule out,
// then each set of units that concern each other by itself.
import { componentsOf } from "./level-components.ts";
import { narrowed } from "./level-narrowing.ts";
import { type SearchLimits, type SearchStep, searchLevels } from "./level-search.ts";
import { type LevelTables, type LevelWalk, partOf, tablesOf } from "./level-tables.ts";

export type WalkStep = SearchStep;

export type WalkResult =
  | { found: "path"; steps: WalkStep[]; seen: number }
  /** `stuck`: where it was seen; mostly, not always, units that have no way even by themselves. */
  | { found: "none"; stuck: number[]; seen: number }
  | { found: "undecided"; seen: number };

/**
 * The fewest steps to all goals. A clash that is there at the start is borne as long as both of its
 * units stay where they are. `none` is proven: everything reachable was seen.
 */
export function walkLevels(walk: LevelWalk, limits: SearchLimits): WalkResult {
  return solve(tablesOf(walk), 1, limits);
}

const GROUP_SIZE_MOST = 3;

function solve(given: LevelTables, groupSize: number, limits: SearchLimits): WalkResult {
  const result = narrowed(given, groupSize);
  if (result.stuck) {
    const stuck = result.stuck.map((unit) => given.unitOf[unit] as number);
    return { found: "none", stuck, seen: 0 };
  }
  const { tables } = result;
  const steps: WalkStep[] = [];
  let seen = 0;
  let undecided = false;
  for (const units of componentsOf(tables)) {
    const part = partOf(tables, units, () => true);
    const left = { ...limits, mostSeen: limits.mostSeen - seen };
    const solved =
      groupSize < Math.min(GROUP_SIZE_MOST, units.length)
        ? solve(part, groupSize + 1, left)
        : searched(part, left);
    seen += solved.seen;
    if (solved.found === "none") return { ...solved, seen };
    if (solved.found === "path") steps.push(...solved.steps);
    else undecided = true;
  }
  return undecided ? { found: "undecided", seen } : { found: "path", steps, seen };
}

function searched(part: LevelTables, limits: SearchLimits): WalkResult {
  const { found, steps, seen } = searchLevels(part, limits);
  if (found === "none") return { found, stuck: [...part.unitOf], seen };
  return found === "path" ? { found, steps, seen } : { found, seen };
}
