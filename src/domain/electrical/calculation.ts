// Every figure an installer or an assessor relies on must show its working: which
// clause, which edition, which row, which numbers went in. (Blueprint, section 6,
// "Electrical"; the layout follows the worked examples in handbooks: formula,
// substitution, result.)
import type { z } from "zod";
import { settled } from "./number-text.ts";

/** One line of working: the formula, the numbers put into it, and what came out. */
export interface Step {
  label: string;
  formula: string;
  /** The formula with its numbers; plain arithmetic unless `tableRow` is set. */
  substituted: string;
  result: number;
  unit: string;
  source?: string;
  /** Set when the step reads a table instead of working something out. */
  tableRow?: string;
}

export type RefusalReason = "not-applicable" | "out-of-range" | "bad-input";

/** A refusal says what is wrong, where, and the way out, in a sentence. */
export interface Refusal {
  ok: false;
  reason: RefusalReason;
  problem: string;
}

export interface Answer {
  ok: true;
  result: number;
  unit: string;
  steps: Step[];
  source: string;
  edition: string;
  notes: string[];
  caution: string;
  /** Set only when a reading was given and there is a limit to hold it to. */
  passes?: boolean;
  /** Distance from the reading to the limit, in `marginUnit`; negative when it fails. */
  margin?: number;
  /** Set only with `margin`; the margin is not always in the unit of the result. */
  marginUnit?: string;
}

export type Outcome = Answer | Refusal;

/** A bare number, or the reason there is none; what the numeric functions return. */
export type Figure = { ok: true; value: number } | Refusal;

export interface Calculation<I> {
  /** Kebab-case, unique: the last segment of its address. */
  name: string;
  title: string;
  /** A strict object; every field says its meaning, unit and bounds. */
  input: z.ZodType<I>;
  compute(input: I): Outcome;
  example: I;
}

/**
 * Ties a calculation's input schema to the type its `compute` receives, so the two
 * cannot drift apart.
 */
export function defineCalculation<Schema extends z.ZodType>(definition: {
  name: string;
  title: string;
  input: Schema;
  compute(input: z.output<Schema>): Outcome;
  example: z.output<Schema>;
}): Calculation<z.output<Schema>> {
  return definition as unknown as Calculation<z.output<Schema>>;
}

/** A refusal; `problem` is a sentence: what is wrong, where, and the way out. */
/** A refusal with its reason and its sentence. */
export function refuse(reason: RefusalReason, problem: string): Refusal {
  return { ok: false, reason, problem };
}

/** A figure, freed of the noise of binary arithmetic. */
/** A number that exists, freed of the noise of its last binary place. */
export function figure(value: number): Figure {
  return { ok: true, value: settled(value) };
}
