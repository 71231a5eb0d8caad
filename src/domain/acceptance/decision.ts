// Requirement: a decision rule says how uncertainty counts (ILAC-G8:09/2019, 4.2): simple
// acceptance; a guard band w = U; or four ways. U is the instrument's stated limit of error, taken
// as expanded uncertainty (k = 2). Exactly on TL−w: pass; on TL: conditional pass; on TL+w:
// conditional fail. A bound that excludes its end (above, below) excludes it here too: on TL−w
// conditional, on TL failed.
import type { DecisionRule } from "../plan/item.ts";
import { aboveLow, accepts, acceptsBeyond, belowHigh, type Interval } from "./interval.ts";
import { normalBelow } from "./normal.ts";
import { significant } from "./significant.ts";

export type Decision = "pass" | "guard-band" | "conditional-pass" | "conditional-fail" | "fail";

/**
 * Decides on a reading.
 * @param rule the plan's decision rule
 * @param value reading, in the unit of the interval
 * @param uncertainty expanded uncertainty U ≥ 0 in the same unit; 0 makes every rule simple
 */
export function decide(
  rule: DecisionRule,
  interval: Interval,
  value: number,
  uncertainty: number,
): Decision {
  const isInside = accepts(interval, value);
  if (rule === "simple") return isInside ? "pass" : "fail";
  const low = significant(value - uncertainty);
  const high = significant(value + uncertainty);
  const isClear = isInside && aboveLow(interval, low) && belowHigh(interval, high);
  return ofThree(rule, isInside, isClear, reaches(interval, low, high));
}

/** Decides on a reading beyond the instrument's range, which stands for every value on from it. */
export function decideBeyond(
  rule: DecisionRule,
  interval: Interval,
  beyond: { value: number; qualifier: ">" | "<" },
  uncertainty: number,
): Decision {
  const { value, qualifier } = beyond;
  const isInside = acceptsBeyond(interval, value, qualifier);
  if (rule === "simple") return isInside ? "pass" : "fail";
  const nearest = significant(qualifier === ">" ? value - uncertainty : value + uncertainty);
  return ofThree(rule, isInside, isInside && acceptsBeyond(interval, nearest, qualifier), false);
}

/**
 * The decision by three things: whether the reading is inside the limit, whether all it may stand
 * for is, and whether any of that is.
 */
export function ofThree(
  rule: Exclude<DecisionRule, "simple">,
  isInside: boolean,
  isClear: boolean,
  isNear: boolean,
): Decision {
  if (isClear) return "pass";
  if (rule === "guarded") return isInside ? "guard-band" : "fail";
  if (isInside) return "conditional-pass";
  return isNear ? "conditional-fail" : "fail";
}

const reaches = (interval: Interval, low: number, high: number): boolean =>
  (interval.low === undefined || high >= interval.low) &&
  (interval.high === undefined || low <= interval.high);

/**
 * Probability that the true value lies outside the interval.
 * @param uncertainty expanded uncertainty U = 2u, greater than 0
 * Source: JCGM 106:2012, 7.4 (conformance probability, normal).
 */
export function riskOutside(interval: Interval, value: number, uncertainty: number): number {
  const u = uncertainty / 2;
  const below = interval.low === undefined ? 0 : normalBelow((interval.low - value) / u);
  const above = interval.high === undefined ? 0 : normalBelow((value - interval.high) / u);
  return below + above;
}
