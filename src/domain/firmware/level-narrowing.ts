// Requirement: what cannot be part of any safe order is left out before the search (product rule):
// levels that no way needs, pairs that lie on no way, units that concern nobody.
import { concern } from "./level-components.ts";
import { choicesOf, narrowBy } from "./level-projections.ts";
import { type LevelTables, levelsOf, partOf } from "./level-tables.ts";

export type Narrowed = { stuck: readonly number[] } | { stuck?: never; tables: LevelTables };

/**
 * The same walk without what groups of so many units rule out by themselves, again until nothing
 * changes. `stuck`: units (numbered as in `given`) that have no way, by themselves or with the
 * others.
 */
export function narrowed(given: LevelTables, groupSize: number): Narrowed {
  const groups = groupsOf(given, groupSize).map((units) => ({ units, lookedAt: -1 }));
  const changes = new Changes(given.sizes.length);
  let tables = given;
  for (let again = true; again; ) {
    again = false;
    for (const group of groups) {
      if (!changes.concern(group.units, group.lookedAt)) continue;
      const barred = narrowBy(tables, group.units);
      if (barred === "stuck") return { stuck: group.units };
      for (const [a, b] of barred) changes.note(a, b);
      group.lookedAt = changes.now;
      again ||= barred.length > 0;
    }
    const smaller = withoutUnused(withoutDetours(tables));
    if (smaller === tables) continue;
    again = true;
    for (const [unit, size] of tables.sizes.entries()) {
      if (smaller.sizes[unit] !== size) changes.noteAll(unit);
    }
    tables = smaller;
  }
  return { tables };
}

/** A third unit rules nothing out unless it joins two pairs that concern each other. */
function groupsOf(tables: LevelTables, size: number): number[][] {
  const units = [...tables.sizes.keys()];
  const groups = choicesOf(units, Math.min(size, units.length));
  if (size < 3) return groups;
  const concerned = units.map((a) => units.map((b) => a !== b && concern(tables, a, b)));
  return groups.filter((group) => {
    const pairs = choicesOf(group, 2).filter(([a = 0, b = 0]) => concerned[a]?.[b]);
    return pairs.length > 1 || group.length < 3;
  });
}

/** When what is known of two units last changed. */
class Changes {
  readonly #units: number;
  readonly #changed: Int32Array;
  now = 0;

  constructor(units: number) {
    this.#units = units;
    this.#changed = new Int32Array(units * units);
  }

  note(a: number, b: number): void {
    this.now += 1;
    this.#changed[a * this.#units + b] = this.now;
    this.#changed[b * this.#units + a] = this.now;
  }

  noteAll(unit: number): void {
    for (let other = 0; other < this.#units; other += 1) this.note(unit, other);
  }

  /** Whether anything changed between these units since `then`. */
  concern(units: readonly number[], then: number): boolean {
    return units.some((a) =>
      units.some((b) => (this.#changed[a * this.#units + b] as number) > then),
    );
  }
}

/** Without the levels that no way has: barred by themselves or beside every level of some unit. */
function withoutUnused(tables: LevelTables): LevelTables {
  const all = tables.levelOf.length;
  const kept = new Uint8Array(all);
  let count = 0;
  for (let unit = 0; unit < tables.sizes.length; unit += 1) {
    const first = tables.places[unit] as number;
    const useful = onTheWay(tables, unit);
    for (let level = 0; level < useful.length; level += 1) {
      const end = level === tables.starts[unit] || level === tables.goals[unit];
      // Starts and goals stay even where they turn out useless: that is then found to be stuck.
      if (!end && !(useful[level] && standsBesideAll(tables, unit, first + level))) continue;
      kept[first + level] = 1;
      count += 1;
    }
  }
  if (count === all) return tables;
  return partOf(tables, [...tables.sizes.keys()], (place) => kept[place] === 1);
}

function standsBesideAll(tables: LevelTables, unit: number, place: number): boolean {
  const row = place * tables.levelOf.length;
  for (let other = 0; other < tables.sizes.length; other += 1) {
    if (other === unit) continue;
    const from = row + (tables.places[other] as number);
    const to = from + (tables.sizes[other] as number);
    let free = false;
    for (let at = from; !free && at < to; at += 1) free = tables.barred[at] === 0;
    if (!free) return false;
  }
  return true;
}

/** By level of one unit: whether it lies between its start and its goal. */
function onTheWay(tables: LevelTables, unit: number): boolean[] {
  const first = tables.places[unit] as number;
  const size = tables.sizes[unit] as number;
  const reached = Array.from({ length: size }, (_, level) => level === tables.starts[unit]);
  const leads = Array.from({ length: size }, (_, level) => level === tables.goals[unit]);
  for (let level = 0; level < size; level += 1) {
    if (!reached[level]) continue;
    for (const to of tables.followers[first + level] ?? []) reached[to] = true;
  }
  for (let level = size - 1; level >= 0; level -= 1) {
    if ((tables.followers[first + level] ?? []).some((to) => leads[to])) leads[level] = true;
  }
  return reached.map((is, level) => is && leads[level] === true);
}

/**
 * Without steps to a level in whose stead another may always be taken: one that clashes with
 * nothing more and leads on to all that the first leads to. No way gets longer by it.
 */
function withoutDetours(tables: LevelTables): LevelTables {
  const followers = [...tables.followers];
  let changed = false;
  for (const [unit, first] of tables.places.entries()) {
    for (const { place: from } of levelsOf(tables, unit)) {
      let kept = followers[from] ?? [];
      if (kept.length < 2) continue;
      for (const instead of kept) {
        const detours = kept.filter((detour) => {
          if (detour === instead || detour === tables.goals[unit]) return false;
          const onwards = followers[first + instead];
          const leads = followers[first + detour]?.every(
            (to) => to === instead || onwards?.includes(to),
          );
          return leads && clashesNoMore(tables, first + instead, first + detour);
        });
        if (detours.length === 0 || !kept.includes(instead)) continue;
        kept = kept.filter((level) => !detours.includes(level));
        changed = true;
      }
      followers[from] = kept;
    }
  }
  return changed ? { ...tables, followers } : tables;
}

function clashesNoMore(tables: LevelTables, place: number, than: number): boolean {
  const all = tables.levelOf.length;
  for (let other = 0; other < all; other += 1) {
    if (tables.clash[place * all + other] === 1 && tables.clash[than * all + other] === 0) {
      return false;
    }
  }
  return true;
}
