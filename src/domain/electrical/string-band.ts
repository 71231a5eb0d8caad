// Identical strings are expected to agree within 5 %: IEC 62446-1 6.4, 6.5.2. The same band
// is laid around the value worked out from the data sheet.
import type { Step } from "./calculation.ts";
import { type Judgement, within } from "./judgement.ts";
import { filled } from "./number-text.ts";
import { STRING_COMPARISON } from "./tables/pv-rules.ts";
import { worked } from "./working.ts";

export interface StringBand {
  steps: [Step, Step];
  judge(reading: number): Judgement;
}

/** The band around an expected string voltage or current, and how a reading stands in it. */
export function bandAround(expected: number, unit: string): StringBand {
  const share = STRING_COMPARISON.percent / 100;
  const [lowest, highest] = [(1 - share) * expected, (1 + share) * expected];
  const step = (label: string, factor: number) =>
    worked(label, "factor × expected", filled`${factor} × ${expected}`, factor * expected, unit);
  return {
    steps: [step("Band from", 1 - share), step("Band to", 1 + share)],
    judge: (reading) => within(reading, lowest, highest, unit),
  };
}
