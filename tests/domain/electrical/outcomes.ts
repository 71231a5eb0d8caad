// Short ways for the tests to reach a calculation and to insist on an answer or a refusal.

import type {
  Answer,
  Figure,
  Outcome,
  Refusal,
} from "../../../src/domain/electrical/calculation.ts";
import { CALCULATIONS } from "../../../src/domain/electrical/catalogue.ts";

/** Runs a calculation the way the interface does: schema first, then compute. */
export function run(name: string, input: Record<string, unknown>): Outcome {
  const calculation = CALCULATIONS.find((candidate) => candidate.name === name);
  if (!calculation) throw new Error(`no calculation named ${name}`);
  return calculation.compute(calculation.input.parse(input));
}

export function answered(name: string, input: Record<string, unknown>): Answer {
  const outcome = run(name, input);
  if (!outcome.ok) throw new Error(`${name} refused: ${outcome.problem}`);
  return outcome;
}

export function refused(name: string, input: Record<string, unknown>): Refusal {
  const outcome = run(name, input);
  if (outcome.ok) throw new Error(`${name} answered ${outcome.result} ${outcome.unit}`);
  return outcome;
}

export function numberOf(figure: Figure): number {
  if (!figure.ok) throw new Error(`refused: ${figure.problem}`);
  return figure.value;
}

export function reasonOf(figure: { ok: true } | Refusal): string {
  return figure.ok ? "answered" : figure.reason;
}
