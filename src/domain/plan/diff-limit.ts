// Requirement: a limit that accepts less than before is stricter, one that accepts more is looser;
// where neither can be told without working an expression out, the change is called different. An
// end is compared with the same end: where one comes in and the other goes out, neither is said.
import { significant } from "../acceptance/significant.ts";
import { tryConvert } from "../quantities/convert.ts";
import { type ChangeWeight, joinedWeight, weightOf, weightOfDemands } from "./diff-change.ts";
import type { Item } from "./item.ts";
import type { Bound, Limit } from "./limit.ts";

/** One end of what is accepted; `undefined` where there is none. */
type End = { at: number | string; included: boolean } | undefined;

type Ends =
  | { form: "ends"; low: End; high: End }
  | { form: "nominal"; nominal: string; by: "absolute" | "percent"; width: number }
  | { form: "expression"; text: string };

/**
 * How much the later item's limit accepts, against the earlier one's.
 * @param before and `after`: items of one kind that takes numbers (measure, tighten, count)
 * @returns "wording" where both accept the same
 */
export function numberLimitWeight(before: Item, after: Item): ChangeWeight {
  const [old, now] = [limitOf(before), limitOf(after)];
  if (!old || !now) return weightOf(now !== undefined, old !== undefined);
  const units = { from: unitOf(before), to: unitOf(after) };
  const isWhole = after.kind === "count";
  const [from, to] = [endsOf(old, isWhole), endsOf(now, isWhole)];
  if (from.form === "ends" && to.form === "ends") {
    const low = endWeight(converted(from.low, units), to.low, 1);
    return joinedWeight([low, endWeight(converted(from.high, units), to.high, -1)]);
  }
  if (units.from !== units.to || from.form !== to.form) return "different";
  if (from.form === "nominal" && to.form === "nominal") {
    if (from.nominal !== to.nominal || from.by !== to.by) return "different";
    const further = to.width - from.width;
    return weightOf(further < 0, further > 0);
  }
  return JSON.stringify(from) === JSON.stringify(to) ? "wording" : "different";
}

/**
 * How much is accepted of what can be chosen or read off, against before.
 * @param before and `after`: items of one kind that takes texts (choose, identify)
 */
export function textLimitWeight(before: Item, after: Item): ChangeWeight {
  const [old, now] = [limitOf(before), limitOf(after)];
  if ((old && "expression" in old) || (now && "expression" in now)) {
    if (expressionOf(old) === expressionOf(now)) return "wording";
    return old && now ? "different" : weightOf(now !== undefined, old !== undefined);
  }
  const [was, is] = [acceptedTexts(before), acceptedTexts(after)];
  if (!was || !is) return weightOf(is !== undefined, was !== undefined);
  return weightOfDemands(is, was);
}

const limitOf = (item: Item): Limit | undefined =>
  "limit" in item ? (item.limit as Limit | undefined) : undefined;

const expressionOf = (limit: Limit | undefined): string | undefined =>
  limit && "expression" in limit ? limit.expression : undefined;

/** Texts that are accepted; undefined where every text is. */
function acceptedTexts(item: Item): string[] | undefined {
  const limit = limitOf(item);
  if (limit && "oneOf" in limit) return limit.oneOf.map(String);
  return item.kind === "choose" ? item.options : undefined;
}

const unitOf = (item: Item): string => ("unit" in item ? item.unit : "");

/** The end in the later unit; what cannot be brought into it is no number and equals nothing. */
function converted(end: End, { from, to }: { from: string; to: string }): End {
  if (!end || from === to) return end;
  if (typeof end.at !== "number") return { ...end, at: Number.NaN };
  const result = tryConvert(end.at, from, to);
  return { ...end, at: result.ok ? result.value : Number.NaN };
}

function endsOf(limit: Limit, isWhole: boolean): Ends {
  if ("expression" in limit) return { form: "expression", text: limit.expression };
  if ("count" in limit) return closed(limit.count, limit.count);
  if ("oneOf" in limit) return { form: "expression", text: JSON.stringify(limit.oneOf) };
  if ("nominal" in limit) return nominalEnds(limit);
  const low = end(limit.min ?? limit.above, limit.above === undefined);
  const high = end(limit.max ?? limit.below, limit.below === undefined);
  return isWhole ? wholeEnds(low, high) : { form: "ends", low, high };
}

function nominalEnds({ nominal, tolerance }: Extract<Limit, { nominal: Bound }>): Ends {
  const [by, width] =
    "absolute" in tolerance
      ? (["absolute", tolerance.absolute] as const)
      : (["percent", tolerance.percent] as const);
  if (typeof nominal !== "number") return { form: "nominal", nominal: nominal.cel, by, width };
  const reach = by === "absolute" ? width : (Math.abs(nominal) * width) / 100;
  return closed(significant(nominal - reach), significant(nominal + reach));
}

const closed = (low: number, high: number): Ends => ({
  form: "ends",
  low: { at: low, included: true },
  high: { at: high, included: true },
});

const end = (bound: Bound | undefined, included: boolean): End =>
  bound === undefined ? undefined : { at: typeof bound === "number" ? bound : bound.cel, included };

/** Of whole numbers from 0 on, "above 2" is "at least 3", and no lower end is "at least 0". */
function wholeEnds(low: End, high: End): Ends {
  const whole = (one: End, inwards: 1 | -1): End => {
    if (typeof one?.at !== "number") return one;
    const nearest = inwards === 1 ? Math.ceil(one.at) : Math.floor(one.at);
    const isOut = !one.included && nearest === one.at;
    return { at: isOut ? nearest + inwards : nearest, included: true };
  };
  const lowest = whole(low, 1) ?? { at: 0, included: true };
  const floor = typeof lowest.at === "number" && lowest.at < 0 ? { ...lowest, at: 0 } : lowest;
  return { form: "ends", low: floor, high: whole(high, -1) };
}

/** `inwards` is 1 at the lower end, where more is stricter, and −1 at the upper. */
function endWeight(before: End, after: End, inwards: 1 | -1): ChangeWeight {
  if (!before || !after) return weightOf(after !== undefined, before !== undefined);
  const closer = weightOf(before.included && !after.included, !before.included && after.included);
  if (before.at === after.at) return closer;
  if (typeof before.at !== "number" || typeof after.at !== "number") return "different";
  const further = (after.at - before.at) * inwards;
  return further > 0 ? "stricter" : further < 0 ? "looser" : "different";
}
