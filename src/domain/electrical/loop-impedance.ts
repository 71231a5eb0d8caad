// The earth-loop impedance must be low enough for the breaker to trip at once:
// Zs ≤ Cmin · U0 / Ia. BS 7671 Table 41.3; IEC 60364-4-41 411.4.4; IEC 60364-6 Annex D.
import { outside } from "./bounds.ts";
import { type Figure, figure, type Refusal } from "./calculation.ts";
import { choose } from "./look-up.ts";
import {
  BREAKER_CURVES,
  LOOP_RULES,
  type LoopRule,
  type LoopRuleRow,
} from "./tables/loop-impedance-rules.ts";

export const CURVES = ["B", "C", "D"] as const;
export const RULES = ["tabulated", "eighty-percent", "two-thirds"] as const;
export const NOMINAL_U0_V = 230;

/** Trip multiple of a breaker curve, e.g. 5 for B. */
export function tripMultiple(curve: string): Figure {
  const known = choose("breaker curve", curve, CURVES);
  if (!known.ok) return known;
  return figure(BREAKER_CURVES.rows.find((row) => row.curve === known.word)?.multiple as number);
}

/** The row of a rule: its factor, voltage factor and citation. */
export function loopRule(rule: LoopRule): LoopRuleRow {
  return LOOP_RULES.rows.find((row) => row.rule === rule) as LoopRuleRow;
}

export type TripCurrent = { ok: true; multiple: number; tripA: number } | Refusal;

/** Current that trips the breaker at once: multiple × rating, in A. */
export function instantTripCurrentA(curve: string, ratingA: number): TripCurrent {
  const refusal = outside({ ratingA });
  if (refusal) return refusal;
  const multiple = tripMultiple(curve);
  if (!multiple.ok) return multiple;
  return { ok: true, multiple: multiple.value, tripA: multiple.value * ratingA };
}

/**
 * Largest earth-loop impedance for a circuit-breaker in a TN system, in Ω, unrounded.
 *
 * @param curve "B", "C" or "D" (IEC 60898-1: up to 125 A)
 * @param ratingA rated current, A
 * @param rule "tabulated" (hot limit), "eighty-percent" or "two-thirds" (cold reading)
 * @param u0V nominal voltage to earth, V
 * @param cMin overrides the rule's own voltage factor
 * Source: BS 7671 Table 41.3 and Appendix 3; IEC 60364-6 Annex D.
 */
export function maxZsOhm(
  curve: string,
  ratingA: number,
  rule: string = "tabulated",
  u0V: number = NOMINAL_U0_V,
  cMin?: number,
): Figure {
  const refusal = outside({ voltageV: u0V, ...(cMin === undefined ? {} : { cMinFactor: cMin }) });
  if (refusal) return refusal;
  const known = choose("rule for the reading", rule, RULES);
  if (!known.ok) return known;
  const trip = instantTripCurrentA(curve, ratingA);
  if (!trip.ok) return trip;
  const row = loopRule(known.word);
  return figure((row.factor * u0V * (cMin ?? row.cMin)) / trip.tripA);
}
