// Requirement: units of one site are brought to their goals one step at a time, and every
// combination on the way is allowed (product rule). The search knows nothing of firmware: units,
// levels by number, steps upwards, pairs that must not stand together, all worked out once into
// flat tables.

/** Levels of each unit are numbered from 0; `steps[unit][level]` lists what may follow. */
export interface LevelWalk {
  starts: readonly number[];
  goals: readonly number[];
  /** Upwards only: what may follow has a higher number. */
  steps: readonly (readonly (readonly number[])[])[];
  /** Symmetric: whether unit `a` at `levelA` must not stand beside unit `b` at `levelB`. */
  clash(a: number, levelA: number, b: number, levelB: number): boolean;
}

/** A walk as tables. A place is a unit at a level: `places[unit] + level`. */
export interface LevelTables {
  /** The unit and, by place, the level as the walk numbers them. */
  unitOf: readonly number[];
  levelOf: readonly number[];
  sizes: readonly number[];
  places: readonly number[];
  starts: readonly number[];
  goals: readonly number[];
  /** By place: the levels that may follow. */
  followers: readonly (readonly number[])[];
  /** Places by places: 1 where two levels must not stand together once a unit of them has moved. */
  clash: Uint8Array;
  /** Places by places: 1 where no way from start to goal has both, clashing or not. */
  barred: Uint8Array;
}

/** Every clash worked out once. Two units that clash as they start may stay so until one moves. */
export function tablesOf(walk: LevelWalk): LevelTables {
  const sizes = walk.steps.map((levels) => levels.length);
  const places = placesOf(sizes);
  const all = sum(sizes);
  const clash = new Uint8Array(all * all);
  for (const [a, sizeA] of sizes.entries()) {
    for (const [b, sizeB] of sizes.entries()) {
      for (let index = 0; a !== b && index < sizeA * sizeB; index += 1) {
        const levelA = index % sizeA;
        const levelB = (index - levelA) / sizeA;
        const unmoved = levelA === walk.starts[a] && levelB === walk.starts[b];
        if (unmoved || !walk.clash(a, levelA, b, levelB)) continue;
        clash[((places[a] as number) + levelA) * all + (places[b] as number) + levelB] = 1;
      }
    }
  }
  return {
    unitOf: sizes.map((_, unit) => unit),
    levelOf: sizes.flatMap((size) => Array.from({ length: size }, (_, level) => level)),
    sizes,
    places,
    starts: walk.starts,
    goals: walk.goals,
    followers: walk.steps.flat(),
    clash,
    barred: clash.slice(),
  };
}

/** Only these units, in this order, and of their levels only those that `keeps` (by place). */
export function partOf(
  tables: LevelTables,
  units: readonly number[],
  keeps: (place: number) => boolean,
): LevelTables {
  const kept = units.map((unit) => levelsOf(tables, unit).filter((level) => keeps(level.place)));
  const sizes = kept.map((levels) => levels.length);
  const oldPlaces = kept.flat().map(({ place }) => place);
  const renumbered = (index: number, level: number | undefined): number =>
    kept[index]?.findIndex((one) => one.level === level) ?? -1;
  return {
    unitOf: units.map((unit) => tables.unitOf[unit] as number),
    levelOf: oldPlaces.map((place) => tables.levelOf[place] as number),
    sizes,
    places: placesOf(sizes),
    starts: units.map((unit, index) => renumbered(index, tables.starts[unit])),
    goals: units.map((unit, index) => renumbered(index, tables.goals[unit])),
    followers: kept.flatMap((levels, index) =>
      levels.map(({ place }) =>
        (tables.followers[place] ?? [])
          .map((level) => renumbered(index, level))
          .filter((level) => level >= 0),
      ),
    ),
    clash: square(tables.clash, oldPlaces),
    barred: square(tables.barred, oldPlaces),
  };
}

/** The levels of one unit with their places. */
export function levelsOf(tables: LevelTables, unit: number): { level: number; place: number }[] {
  const place = tables.places[unit] as number;
  const length = tables.sizes[unit] as number;
  return Array.from({ length }, (_, level) => ({ level, place: place + level }));
}

function square(table: Uint8Array, kept: readonly number[]): Uint8Array {
  const all = Math.sqrt(table.length);
  const smaller = new Uint8Array(kept.length * kept.length);
  for (let row = 0, at = 0; row < kept.length; row += 1) {
    const from = (kept[row] as number) * all;
    for (let column = 0; column < kept.length; column += 1, at += 1) {
      smaller[at] = table[from + (kept[column] as number)] as number;
    }
  }
  return smaller;
}

function placesOf(sizes: readonly number[]): number[] {
  let place = 0;
  return sizes.map((size) => {
    place += size;
    return place - size;
  });
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);
