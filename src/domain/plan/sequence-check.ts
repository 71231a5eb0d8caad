// Requirement: an item that waits for what can never be is a fault of the plan: a breaker that no
// item moves, a state that none leaves it in, a time that ends before it begins.
import type { CompiledItem } from "./compile.ts";
import type { Item } from "./item.ts";
import type { ItemFault } from "./item-check.ts";
import type { BreakerSet } from "./sequence.ts";

/** A fault of an item among the others, with its JSON pointer from the item. */
export interface SequenceFault extends ItemFault {
  id: string;
}

/** The other items that an item names, each with its JSON pointer from the item. */
export function namedItems(item: Item): { place: string; id: string }[] {
  const after = (item.after ?? []).map((id, index) => ({ place: `/after/${index}`, id }));
  const repeats = (item.onFailRepeat ?? []).map((id, index) => ({
    place: `/onFailRepeat/${index}`,
    id,
  }));
  return [
    ...after,
    ...(item.dwell ? [{ place: "/dwell/after", id: item.dwell.after }] : []),
    ...repeats,
  ];
}

/** Items that need a breaker in a state in which nothing that can be done leaves it. */
export function breakerFaults(items: readonly CompiledItem[]): SequenceFault[] {
  if (!items.some(({ sequence }) => sequence?.stand.length)) return [];
  const doable = doableItems(items);
  return items.flatMap(({ item, sequence }) =>
    (sequence?.stand ?? []).flatMap((wanted) => {
      const fault = breakerFault(wanted, items, doable);
      const place = `/breakers/with/${wanted.breaker}`;
      return fault ? [{ id: item.id, place, ...fault }] : [];
    }),
  );
}

function breakerFault(
  { breaker, state }: BreakerSet,
  items: readonly CompiledItem[],
  doable: ReadonlySet<string>,
): { code: string; sentence: string } | undefined {
  const movers = items.filter(({ sequence }) =>
    sequence?.leaves.some((left) => left.breaker === breaker),
  );
  if (movers.length === 0) {
    const sentence = `No item leaves breaker "${breaker}" open or closed, so it is never known.`;
    return { code: "unknown-breaker", sentence };
  }
  const ways = movers.filter(({ item }) => item.breakers?.leaves?.[breaker] === state);
  if (ways.length === 0) {
    return { code: "unreachable", sentence: `No item leaves breaker "${breaker}" ${state}.` };
  }
  if (ways.some(({ item }) => doable.has(item.id))) return undefined;
  const named = ways.map(({ item }) => `"${item.id}"`).join(", ");
  const left = `Breaker "${breaker}" is left ${state} only by what cannot be done before`;
  return { code: "unreachable", sentence: `${left}: ${named}.` };
}

/**
 * Items that can be done in some order: all that they need can be, and each of their breakers is
 * left as they need it by one that can. A condition may spare a need, and what only marks is done.
 */
function doableItems(items: readonly CompiledItem[]): Set<string> {
  const doable = new Set<string>();
  const reached = new Set<string>();
  const conditional = new Set(items.filter(({ applies }) => applies).map(({ item }) => item.id));
  let open = [...items];
  for (let before = -1; before !== open.length; ) {
    before = open.length;
    open = open.filter((compiled) => {
      const { item, needs, sequence } = compiled;
      const isMet = (id: string): boolean => doable.has(id) || conditional.has(id);
      const stands = ({ breaker, state }: BreakerSet): boolean =>
        reached.has(`${breaker} ${state}`);
      const canBe = [...needs, ...(sequence?.deadBefore ?? [])].every(isMet);
      const isHeld = !canBe || !(sequence?.stand ?? []).every(stands);
      if (isHeld && item.sequence !== "mark") return true;
      doable.add(item.id);
      for (const { breaker, state } of sequence?.leaves ?? []) reached.add(`${breaker} ${state}`);
      return false;
    });
  }
  return doable;
}
