// Requirement: of every field of an item it is known whether more of it asks for more, and whom a
// change to it concerns; a field that is not known here is still told, as different.
import { isUnit, quantityOf, type Unit } from "../quantities/units.ts";
import {
  type ChangeWeight,
  type Concern,
  weightOfDemands as demands,
  weightOf,
} from "./diff-change.ts";
import { numberLimitWeight, textLimitWeight } from "./diff-limit.ts";
import { decisionWeight, dwellWeight, repeatWeight } from "./diff-weights.ts";
import { isHoldPoint } from "./hold-point.ts";
import type { DecisionRule, Item, ItemOf } from "./item.ts";

/** An item with what holds for it because of the plan it stands in. */
export interface ItemOfPlan {
  item: Item;
  /** The plan's rule, where the item has none of its own. */
  decisionRule: DecisionRule;
}

type Weigh = (before: ItemOfPlan, after: ItemOfPlan) => ChangeWeight;

export interface FieldRule {
  /** What the field is called in a sentence. */
  name: string;
  weigh: Weigh;
  concerns: readonly Concern[];
}

const INSTALLER = ["installer"] as const;
const WITH_OFFICE = ["installer", "office"] as const;
const WITH_MANAGER = ["installer", "manager"] as const;

const field = (
  name: string,
  weigh: (before: Item, after: Item) => ChangeWeight,
  concerns: readonly Concern[] = INSTALLER,
): FieldRule => ({
  name,
  weigh: (before, after) => weigh(before.item, after.item),
  concerns,
});

const wording = (): ChangeWeight => "wording";
const different = (): ChangeWeight => "different";
const more = (before = 0, after = 0): ChangeWeight => weightOf(after > before, after < before);
const flag = (before: boolean, after: boolean): ChangeWeight => more(Number(before), Number(after));

/** A torque comes from a torque tool, whether the plan says so or not. */
const instrumentOf = (item: Item): string | undefined =>
  item.instrument?.class ?? (item.kind === "tighten" ? "torque-wrench" : undefined);

const FIELD_RULES: Readonly<Record<string, FieldRule>> = {
  kind: field("the kind of item", different, [...WITH_OFFICE, "manager"]),
  title: field("the title", wording),
  do: field("what to do", wording),
  why: field("the reason", wording),
  cautions: field("the cautions", cautionsWeight),
  toClear: field("what clears a failure", wording),
  holdPoint: field(
    "the hold point",
    (before, after) => flag(isHoldPoint(before), isHoldPoint(after)),
    WITH_MANAGER,
  ),
  safetyCritical: field(
    "safety-critical",
    (before, after) => flag(before.safetyCritical === true, after.safetyCritical === true),
    WITH_MANAGER,
  ),
  repeat: field("for what it is asked", repeatWeight),
  appliesWhen: field("when it applies", (before, after) =>
    before.appliesWhen !== undefined && after.appliesWhen !== undefined
      ? "different"
      : flag(before.appliesWhen === undefined, after.appliesWhen === undefined),
  ),
  after: field("what comes before it", (before, after) => demands(before.after, after.after)),
  sequence: field("what an answer out of sequence does", (before, after) =>
    flag(before.sequence !== "mark", after.sequence !== "mark"),
  ),
  supply: field("the supply", (before, after) =>
    before.supply && after.supply
      ? "different"
      : flag(before.supply !== undefined, after.supply !== undefined),
  ),
  breakers: field("the breakers", (before, after) => {
    const leaves = (item: Item) => statesOf(item.breakers?.leaves).toSorted().join();
    if (leaves(before) !== leaves(after)) return "different";
    return demands(statesOf(before.breakers?.with), statesOf(after.breakers?.with));
  }),
  dwell: field("the waiting time", dwellWeight),
  onFailRepeat: field("what a failure makes repeat", (before, after) =>
    demands(before.onFailRepeat, after.onFailRepeat),
  ),
  evidence: field("the evidence", (before, after) =>
    demands(evidenceOf(before), evidenceOf(after)),
  ),
  instrument: field("the instrument", instrumentWeight, WITH_OFFICE),
  unit: field("the unit", unitWeight),
  limit: field("what is accepted", (before, after) =>
    ["choose", "identify"].includes(after.kind)
      ? textLimitWeight(before, after)
      : numberLimitWeight(before, after),
  ),
  decisionRule: {
    name: "how uncertainty counts",
    weigh: (before, after) => decisionWeight(ruleOf(before), ruleOf(after)),
    concerns: WITH_OFFICE,
  },
  points: field("the number of fasteners", (before, after) =>
    more((before as ItemOf<"tighten">).points, (after as ItemOf<"tighten">).points),
  ),
  photos: field("the number of photos", (before, after) =>
    more((before as ItemOf<"photo">).photos, (after as ItemOf<"photo">).photos),
  ),
  options: field("what can be chosen", (before, after) =>
    "limit" in before || "limit" in after ? "different" : textLimitWeight(before, after),
  ),
};

/** What is known of a field of an item. */
export const fieldRule = (name: string): FieldRule =>
  (Object.hasOwn(FIELD_RULES, name) ? FIELD_RULES[name] : undefined) ??
  field(`"${name}"`, different);

/** The fields in the order in which their changes are told. */
export const FIELD_ORDER: readonly string[] = Object.keys(FIELD_RULES);

function cautionsWeight(before: Item, after: Item): ChangeWeight {
  const weight = demands(before.cautions, after.cautions);
  return weight === "different" ? "wording" : weight;
}

function instrumentWeight(before: Item, after: Item): ChangeWeight {
  const [old, now] = [instrumentOf(before), instrumentOf(after)];
  if (old === now) return "wording";
  return old && now ? "different" : flag(old !== undefined, now !== undefined);
}

/** Within one quantity a reading may be typed in either unit. */
function unitWeight(before: Item, after: Item): ChangeWeight {
  const [old, now] = [before, after].map((item) => ("unit" in item ? item.unit : ""));
  const isKnown = isUnit(old ?? "") && isUnit(now ?? "");
  return isKnown && quantityOf(old as Unit) === quantityOf(now as Unit) ? "wording" : "different";
}

const ruleOf = ({ item, decisionRule }: ItemOfPlan): DecisionRule =>
  ("decisionRule" in item ? item.decisionRule : undefined) ?? decisionRule;

const statesOf = (states: Readonly<Record<string, string>> = {}): string[] =>
  Object.entries(states).map(([breaker, state]) => `${breaker} ${state}`);

/** Each photo is a demand of its own, so that two are more than one. */
const evidenceOf = ({ evidence }: Item): string[] => [
  ...Array.from({ length: evidence?.photos ?? 0 }, (_, index) => `photo ${index + 1}`),
  ...(evidence?.note ? ["note"] : []),
];
