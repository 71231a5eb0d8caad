// Requirement: of steps whose order does not matter only one order is looked at (product rule). A
// strong stubborn set (Valmari 1989; Wehrle and Helmert 2014 for planning, from memory): a set of
// units such that the first step any way takes within it could as well have been taken at once.
import { type LevelTables, levelsOf } from "./level-tables.ts";

/** Which units to move next; see `chooseUnits`. */
export interface Choices {
  /** By edge: where it begins, where it leads. */
  edgesOf: readonly (readonly Edge[])[];
  all: number;
}

interface Edge {
  to: number;
  row: number;
  /** By place of another unit: 1 where that unit may yet land on what clashes with this step. */
  later: Uint8Array;
}

/** Edges by place, with what may yet come in their way. */
export function choicesFor(tables: LevelTables): Choices {
  const all = tables.levelOf.length;
  const edgesOf = tables.unitOf.flatMap((_, unit) =>
    levelsOf(tables, unit).map(({ place }) =>
      (tables.followers[place] ?? []).map((to): Edge => {
        const row = (tables.places[unit] as number) + to;
        return { to, row: row * all, later: laterClashes(tables, unit, place, row) };
      }),
    ),
  );
  return { edgesOf, all };
}

/**
 * While the unit waits at `from`, another lands only on what stands beside `from`; landing there
 * comes in the way of the step if it then does not stand beside `to`.
 */
function laterClashes(tables: LevelTables, unit: number, from: number, to: number): Uint8Array {
  const all = tables.levelOf.length;
  const later = new Uint8Array(all);
  for (const other of tables.sizes.keys()) {
    if (other === unit) continue;
    for (const { place } of [...levelsOf(tables, other)]) {
      const landings = reachedFrom(tables, other, place);
      const inTheWay = landings.some(
        (landing) =>
          tables.clash[to * all + landing] === 1 && tables.clash[from * all + landing] === 0,
      );
      later[place] = inTheWay ? 1 : 0;
    }
  }
  return later;
}

function reachedFrom(tables: LevelTables, unit: number, place: number): number[] {
  const first = tables.places[unit] as number;
  const found: number[] = [];
  for (let at: number | undefined = place, next = 0; at !== undefined; at = found[next++]) {
    for (const to of tables.followers[at] ?? []) {
      if (!found.includes(first + to)) found.push(first + to);
    }
  }
  return found;
}

/** Scratch space of `chooseUnits`, by unit. */
export interface ChoiceScratch {
  /** Units (as bits) that come into the set with this one because a free step of it meets them. */
  meets: Int32Array;
  /** Free steps of the unit. */
  free: Int32Array;
  /** Blocked steps: for each a set of blockers, one of which has to come into the set. */
  blockers: number[][];
}

/** Empty scratch space for so many units. */
export function choiceScratch(units: number): ChoiceScratch {
  return {
    meets: new Int32Array(units),
    free: new Int32Array(units),
    blockers: Array.from({ length: units }, () => []),
  };
}

/**
 * Units (as bits) of which one must make the next step, at best one unit; 0 where no unit at all
 * can ever reach its goal from here. `at` holds the place of each unit.
 */
export function chooseUnits(
  tables: LevelTables,
  choices: Choices,
  at: Int32Array,
  scratch: ChoiceScratch,
): number {
  look(tables, choices, at, scratch);
  let best = 0;
  let bestFree = Number.POSITIVE_INFINITY;
  for (let unit = 0; unit < at.length; unit += 1) {
    const goal = (tables.places[unit] as number) + (tables.goals[unit] as number);
    if (at[unit] === goal) continue;
    const set = closed(1 << unit, scratch);
    let free = 0;
    for (let other = 0; other < at.length; other += 1) {
      if ((set >> other) & 1) free += scratch.free[other] as number;
    }
    if (free === 0) return 0;
    if (free < bestFree) {
      best = set;
      bestFree = free;
    }
  }
  return best;
}

function look(tables: LevelTables, choices: Choices, at: Int32Array, scratch: ChoiceScratch): void {
  for (let unit = 0; unit < at.length; unit += 1) {
    let meets = 0;
    let free = 0;
    const blockers = scratch.blockers[unit] as number[];
    blockers.length = 0;
    for (const edge of choices.edgesOf[at[unit] as number] as readonly Edge[]) {
      let blocked = 0;
      let later = 0;
      for (let other = 0; other < at.length; other += 1) {
        if (other === unit) continue;
        const place = at[other] as number;
        if (tables.barred[edge.row + place] === 1) blocked |= 1 << other;
        if (edge.later[place] === 1) later |= 1 << other;
      }
      if (blocked !== 0) blockers.push(blocked);
      else {
        free += 1;
        meets |= later;
      }
    }
    scratch.meets[unit] = meets;
    scratch.free[unit] = free;
  }
}

/** The set grown until every unit in it has what it meets, and of each blocked step one blocker. */
function closed(seed: number, scratch: ChoiceScratch): number {
  let set = seed;
  let open = seed;
  while (open !== 0) {
    const unit = 31 - Math.clz32(open);
    open &= ~(1 << unit);
    let more = scratch.meets[unit] as number;
    for (const blocked of scratch.blockers[unit] as number[]) {
      if ((blocked & (set | more)) === 0) more |= blocked & -blocked;
    }
    open |= more & ~set;
    set |= more;
  }
  return set;
}
