// Requirement: whether an item is asked more often, waited for longer or judged with more caution
// than before is told where it can be told from the plans alone.
import { type ChangeWeight, joinedWeight, weightOf, weightOfDemands } from "./diff-change.ts";
import type { DecisionRule, Item } from "./item.ts";
import type { Repeat } from "./repeat.ts";

/**
 * Four ways accept what simple acceptance does, but the accuracy must be known; a guard band
 * accepts less (ILAC-G8:09/2019, 4.2).
 */
const CAUTION: Readonly<Record<DecisionRule, number>> = { simple: 0, "four-way": 1, guarded: 2 };

/** How much less the later rule accepts. */
export const decisionWeight = (before: DecisionRule, after: DecisionRule): ChangeWeight =>
  weightOf(CAUTION[after] > CAUTION[before], CAUTION[after] < CAUTION[before]);

/** Whether the later item is asked of more than the earlier one. */
export function repeatWeight({ repeat: before }: Item, { repeat: after }: Item): ChangeWeight {
  const [old, now] = [timesOf(before), timesOf(after)];
  if (old !== undefined && now !== undefined) {
    return old === now && (before === undefined) !== (after === undefined)
      ? "different"
      : weightOf(now > old, now < old);
  }
  if (before && after && "per" in before && "per" in after) return perWeight(before, after);
  return "different";
}

/** How often, where that is said in numbers. */
function timesOf(repeat: Repeat | undefined): number | undefined {
  if (!repeat) return 1;
  return "times" in repeat ? repeat.times : undefined;
}

type Per = Extract<Repeat, { per: unknown }>;

function perWeight(before: Per, after: Per): ChangeWeight {
  if (before.per === "unit" && after.per === "unit") {
    if (before.ofKind === after.ofKind) return "wording";
    if (before.ofKind && after.ofKind) return "different";
    return weightOf(after.ofKind === undefined, before.ofKind === undefined);
  }
  if (before.per === "fastener-group" && after.per === "fastener-group") {
    const idsOf = (per: typeof before) => per.groups.map(({ id }) => id);
    return weightOfDemands(idsOf(before), idsOf(after));
  }
  return "different";
}

/** Whether more waiting, or less time, is left for the later item. */
export function dwellWeight({ dwell: before }: Item, { dwell: after }: Item): ChangeWeight {
  if (!before || !after) return weightOf(after !== undefined, before !== undefined);
  if (before.after !== after.after) return "different";
  const [most, mostNow] = [before.atMostS ?? Infinity, after.atMostS ?? Infinity];
  return joinedWeight([
    weightOf(after.atLeastS > before.atLeastS, after.atLeastS < before.atLeastS),
    weightOf(mostNow < most, mostNow > most),
  ]);
}
