// A finding says what was measured, what was needed, by how much, and whose rule it is. It is
// guidance: the words of a finding never say that a place is certified or approved.
import type { Rectangle } from "./geometry.ts";
import type { Certainty } from "./rule-pack.ts";

export const VERDICTS = ["breaks", "needs-survey", "meets", "not-applicable"] as const;
export type Verdict = (typeof VERDICTS)[number];

export type FindingUnit = "mm" | "kWh" | "%" | "°C";
export type Direction = "beside" | "above" | "below" | "straight-line";

export interface Measure {
  measured: number;
  required: number;
  /** Positive where the rule is met with room to spare. */
  margin: number;
  unit: FindingUnit;
  bound: "minimum" | "maximum";
}

export interface Finding extends Partial<Measure> {
  ruleId: string;
  title: string;
  verdict: Verdict;
  /** Ids of what the finding is about: unit and feature, unit and unit, unit and room … */
  between: readonly string[];
  sentence: string;
  source: string;
  edition: string;
  certainty: Certainty;
  caution?: string;
  /** For distances: which way it was measured, seen from the first of `between`. */
  direction?: Direction;
  /** For barriers: the rectangle that has to be covered. */
  zone?: Rectangle & { planeId: string };
}

/** What a judge decides; the rule adds its title, source and edition. */
export type Decision = Pick<Finding, "verdict" | "between" | "sentence"> &
  Partial<Measure> &
  Pick<Finding, "direction" | "zone">;

/** A measured value against a minimum; margin cleared of floating-point dust (1e-6). */
export function atLeast(measured: number, required: number, unit: FindingUnit): Measure {
  return { measured, required, margin: dustless(measured - required), unit, bound: "minimum" };
}

/** A measured value against a maximum; margin cleared of floating-point dust (1e-6). */
export function atMost(measured: number, required: number, unit: FindingUnit): Measure {
  return { measured, required, margin: dustless(required - measured), unit, bound: "maximum" };
}

/** `margin ≥ 0` meets: every bound of the packs is inclusive ("not less than", "not more than"). */
export function verdictOf(measure: Measure): "meets" | "breaks" {
  return measure.margin >= 0 ? "meets" : "breaks";
}

/** `914.4 mm` or `36 in`; three decimals at most, so that 599.9 never reads as 600. */
export function lengthText(lengthMm: number, display: "mm" | "in"): string {
  return display === "mm" ? `${round(lengthMm)} mm` : `${round(lengthMm / 25.4)} in`;
}

function dustless(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
