// Requirement: what does not concern a unit does not make its order harder to find (product rule):
// sets of units that concern each other are solved apart, and units that are alike stand for each
// other.
import { type LevelTables, levelsOf } from "./level-tables.ts";

/** Units that concern each other, directly or through others: each such set can be solved apart. */
export function componentsOf(tables: LevelTables): number[][] {
  const units = tables.sizes.map((_, unit) => unit);
  const found: number[][] = [];
  for (const unit of units) {
    if (found.some((component) => component.includes(unit))) continue;
    const component = [unit];
    for (const one of component) {
      for (const other of units) {
        if (!component.includes(other) && concern(tables, one, other)) component.push(other);
      }
    }
    found.push(component.sort((a, b) => a - b));
  }
  return found;
}

/** Whether any levels of two units clash. */
export function concern(tables: LevelTables, a: number, b: number): boolean {
  const all = tables.levelOf.length;
  return levelsOf(tables, a).some(({ place }) =>
    levelsOf(tables, b).some((level) => tables.clash[place * all + level.place] === 1),
  );
}

/** Units that may stand in for each other (same levels, steps, ends and clashes), side by side. */
export function alikeOf(tables: LevelTables): number[][] {
  const groups: number[][] = [];
  for (const unit of tables.sizes.keys()) {
    const group = groups.find(([first = -1]) => areAlike(tables, first, unit));
    if (group) group.push(unit);
    else groups.push([unit]);
  }
  return groups;
}

function areAlike(tables: LevelTables, a: number, b: number): boolean {
  const { sizes, starts, goals, followers, clash, levelOf } = tables;
  if (sizes[a] !== sizes[b] || starts[a] !== starts[b] || goals[a] !== goals[b]) return false;
  const all = levelOf.length;
  const levelsA = levelsOf(tables, a);
  const levelsB = levelsOf(tables, b);
  const swapped = Array.from({ length: all }, (_, place) => place);
  for (const { level, place } of levelsA) {
    const other = levelsB[level]?.place as number;
    if (String(followers[place]) !== String(followers[other])) return false;
    swapped[place] = other;
    swapped[other] = place;
  }
  return [...levelsA, ...levelsB].every(({ place }) =>
    swapped.every(
      (to, at) => clash[place * all + at] === clash[(swapped[place] as number) * all + to],
    ),
  );
}
