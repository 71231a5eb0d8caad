// Before a DC breaker is closed the voltage across the open side must have the right sign
// and size; a reversed battery or string destroys equipment at once. IEC 60364-6 6.4.3.6.
import { z } from "zod";
import { defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { within } from "../judgement.ts";
import { shown } from "../number-text.ts";
import { BENCH_PRACTICE } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  measuredV: numberField(
    "signedVoltageV",
    "Reading with the red lead on the conductor marked positive, breaker open",
  ),
  lowestV: numberField("voltageV", "Lowest voltage the maker gives for this state"),
  highestV: numberField("voltageV", "Highest voltage the maker gives for this state"),
});

function wayOut(measuredV: number, lowestV: number, highestV: number): string {
  if (measuredV <= -lowestV)
    return "Reversed polarity: do not close; swap the conductors and read again.";
  if (Math.abs(measuredV) < lowestV) {
    return "Too little voltage: polarity is not proven; find the open fuse, switch or joint.";
  }
  if (measuredV > highestV) return "Too much voltage: do not close; check the number in series.";
  return "Polarity is right and the voltage is in range.";
}

export const dcPolarity = defineCalculation({
  name: "dc-polarity",
  title: "DC polarity before closing",
  input,
  compute({ measuredV, lowestV, highestV }) {
    if (lowestV > highestV) {
      const found = `The lowest voltage, ${lowestV} V, is above the highest, ${highestV} V`;
      return refuse("bad-input", `${found}; swap them.`);
    }
    const reading = shown(measuredV);
    return answer({
      steps: [worked("Signed voltage", "as read", reading, measuredV, "V", BENCH_PRACTICE)],
      from: [BENCH_PRACTICE],
      caution: CAUTION.battery,
      notes: [wayOut(measuredV, lowestV, highestV)],
      judged: within(measuredV, lowestV, highestV, "V"),
    });
  },
  example: { measuredV: 52.4, lowestV: 48, highestV: 58.4 },
});
