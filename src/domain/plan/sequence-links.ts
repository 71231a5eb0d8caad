// Requirement: what the sequence of tests asks of an item is worked out once, when the plan is
// compiled: dead tests before live ones, breakers as they must stand, what a failure repeats
// (IEC 60364-6 6.4.3.1, from memory). An item that is in none of this carries nothing.

import { breakerSets } from "./breaker-sets.ts";
import type { Item } from "./item.ts";
import type { BreakerSet } from "./sequence.ts";

export interface CompiledSequence {
  /**
   * Hold points done dead that stand before this live item. Live items between the same dead ones
   * share one list, so that a plan of n items holds at most n²/4 entries.
   */
  deadBefore: readonly string[];
  /** How breakers must stand for it. */
  stand: readonly BreakerSet[];
  /** How it leaves breakers. */
  leaves: readonly BreakerSet[];
  /** Items that leave any breaker of `stand`, in whatever state. */
  leavers: readonly string[];
  /** Earlier items that a failure here asks to be repeated. */
  repeats: readonly string[];
  /** Items whose failure asks this one to be repeated. */
  repeatedBy: readonly string[];
}

/** What of an item is to be known for its place in the sequence. */
interface Linked {
  item: Item;
  holdPoint: boolean;
  sequence?: CompiledSequence;
}

const NONE: CompiledSequence = {
  ...{ deadBefore: [], stand: [], leaves: [], leavers: [], repeats: [], repeatedBy: [] },
};

/**
 * Ties the items of a plan together by their places in the sequence of tests.
 * @param items in the plan's order
 * @returns the same items, those with such a place with `sequence`
 */
export function linkSequence<Compiled extends Linked>(items: readonly Compiled[]): Compiled[] {
  const leavers = idsBy(items, (item) => Object.keys(item.breakers?.leaves ?? {}));
  const repeaters = idsBy(items, (item) => item.onFailRepeat ?? []);
  let dead: readonly string[] = NONE.deadBefore;
  return items.map((compiled) => {
    const { item } = compiled;
    const deadBefore = item.supply === "live" ? dead : NONE.deadBefore;
    if (item.supply === "dead" && compiled.holdPoint) dead = [...dead, item.id];
    const repeatedBy = repeaters.get(item.id) ?? NONE.repeatedBy;
    const { breakers, dwell, onFailRepeat } = item;
    if (!breakers && !dwell && !onFailRepeat && deadBefore.length + repeatedBy.length === 0) {
      return compiled;
    }
    const stand = breakerSets(breakers?.with);
    const sequence: CompiledSequence = {
      deadBefore,
      stand,
      leaves: breakerSets(breakers?.leaves),
      leavers: [...new Set(stand.flatMap(({ breaker }) => leavers.get(breaker) ?? []))],
      repeats: onFailRepeat ?? NONE.repeats,
      repeatedBy,
    };
    return { ...compiled, sequence };
  });
}

/** The ids of the items that name something, by what they name. */
function idsBy(
  items: readonly Linked[],
  named: (item: Item) => readonly string[],
): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const { item } of items) {
    for (const name of new Set(named(item))) {
      const ids = found.get(name);
      if (ids) ids.push(item.id);
      else found.set(name, [item.id]);
    }
  }
  return found;
}
