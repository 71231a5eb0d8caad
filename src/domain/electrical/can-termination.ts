// A CAN bus works with one terminator at each end; the resistance between its wires tells
// how many are fitted. ISO 11898-2 (from memory): 100 Ω to 130 Ω each, nominal 120 Ω.
import { outside } from "./bounds.ts";
import type { Refusal } from "./calculation.ts";
import { CAN_TERMINATION } from "./tables/workshop-rules.ts";

export interface CanDiagnosis {
  ok: true;
  /** Terminators that explain the reading; null when none does. */
  terminators: number | null;
  finding: string;
}

const FINDINGS = {
  1: "One terminator only: one is missing, or its end of the bus is cut off.",
  2: "Two terminators: as it should be.",
  3: "Three terminators: one too many; switch off or remove the one that is not at an end.",
  4: "Four terminators: two too many; leave only the two at the ends.",
} as const;

/** The band of readings that `terminators` in parallel give, Ω. */
export function canBandOhm(terminators: number): { minOhm: number; maxOhm: number } {
  const { minOhm, maxOhm } = CAN_TERMINATION;
  return { minOhm: minOhm / terminators, maxOhm: maxOhm / terminators };
}

/** Explains the resistance read between CANH and CANL with every device switched off. */
export function diagnoseCan(readingOhm: number): CanDiagnosis | Refusal {
  const refusal = outside({ resistanceOhm: readingOhm });
  if (refusal) return refusal;
  for (const terminators of [1, 2, 3, 4] as const) {
    const { minOhm, maxOhm } = canBandOhm(terminators);
    if (readingOhm >= minOhm && readingOhm <= maxOhm) {
      return { ok: true, terminators, finding: FINDINGS[terminators] };
    }
  }
  return { ok: true, terminators: null, finding: unexplained(readingOhm) };
}

function unexplained(readingOhm: number): string {
  if (readingOhm > CAN_TERMINATION.maxOhm) {
    return "No terminator found: none fitted, or the bus is open between here and the ends.";
  }
  if (readingOhm < canBandOhm(4).minOhm) {
    return "Nearly a short: look for CANH touching CANL, or for many terminators.";
  }
  return (
    "Between the values that whole terminators give: check that every device is off, then each " +
    "terminator alone."
  );
}
