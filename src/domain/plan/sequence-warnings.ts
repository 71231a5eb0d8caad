// What the writer of a plan should look at about the order of tests: a dead test among live ones
// (IEC 60364-6 6.4.3.1, from memory: dead tests come first), a breaker that the plan's own order
// leaves otherwise, a test repeated that stands later.
import type { CompiledItem } from "./compile.ts";
import type { BreakerState } from "./sequence.ts";
import type { SequenceFault } from "./sequence-check.ts";

/** What deserves a look about the sequence of the items, which are in the plan's order. */
export function sequenceWarnings(items: readonly CompiledItem[]): SequenceFault[] {
  return [
    ...deadAfterLive(items),
    ...breakersByOrder(items),
    ...breakersByCondition(items),
    ...laterRepeats(items),
  ];
}

/** Between a live test and a dead one something must have been switched off. */
function deadAfterLive(items: readonly CompiledItem[]): SequenceFault[] {
  let stageId: string | undefined;
  let live: string | undefined;
  return items.flatMap(({ item, stageId: own, sequence }) => {
    if (own !== stageId) live = undefined;
    stageId = own;
    const before = live;
    if (item.supply === "live") live = item.id;
    if (sequence?.leaves.length) live = undefined;
    if (item.supply !== "dead" || before === undefined) return [];
    const sentence = `It is done dead after "${before}", live, with no breaker moved between.`;
    return [{ id: item.id, place: "/supply", code: "dead-after-live", sentence }];
  });
}

type Known = BreakerState | "not known";

/** Follows the breakers through the plan as it stands; what may not apply may not move one. */
function breakersByOrder(items: readonly CompiledItem[]): SequenceFault[] {
  const states = new Map<string, readonly Known[]>();
  const at = (breaker: string): readonly Known[] => states.get(breaker) ?? ["not known"];
  return items.flatMap(({ item, sequence, applies }) => {
    const warnings = (sequence?.stand ?? []).flatMap(({ breaker, state }) => {
      if (at(breaker).includes(state)) return [];
      const known = at(breaker).join(" or ");
      const sentence = `In the plan's order "${breaker}" is ${known} here; needed ${state}.`;
      return [{ id: item.id, place: `/breakers/with/${breaker}`, code: "breaker-order", sentence }];
    });
    for (const { breaker, state } of sequence?.leaves ?? []) {
      states.set(breaker, applies ? [...new Set([...at(breaker), state])] : [state]);
    }
    return warnings;
  });
}

/** Where all that leaves a breaker so may turn out not to apply, the item may never be done. */
function breakersByCondition(items: readonly CompiledItem[]): SequenceFault[] {
  return items.flatMap(({ item, sequence, applies }) =>
    (sequence?.stand ?? []).flatMap(({ breaker, state }) => {
      const isSure = items.some(({ item: other, applies: condition }) => {
        if (other.breakers?.leaves?.[breaker] !== state) return false;
        return condition === undefined || condition.text === applies?.text;
      });
      if (isSure) return [];
      const place = `/breakers/with/${breaker}`;
      const sentence = `Whatever leaves "${breaker}" ${state} has a condition and may not apply.`;
      return [{ id: item.id, place, code: "breaker-condition", sentence }];
    }),
  );
}

function laterRepeats(items: readonly CompiledItem[]): SequenceFault[] {
  const before = new Set<string>();
  return items.flatMap(({ item, sequence }) => {
    before.add(item.id);
    return (sequence?.repeats ?? []).flatMap((id, index) => {
      if (before.has(id)) return [];
      const sentence = `A failure repeats "${id}", which stands later in the plan.`;
      const place = `/onFailRepeat/${index}`;
      return [{ id: item.id, place, code: "needs-later-item", sentence }];
    });
  });
}
