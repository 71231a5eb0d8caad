// Once a DC breaker is closed, next to no voltage may remain across it; what remains is a
// bad contact that will heat. The allowed drop is the maker's figure: required, no default.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { shown } from "../number-text.ts";
import { BENCH_PRACTICE } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  measuredV: numberField("signedVoltageV", "Voltage across the closed pole, with its sign"),
  allowedV: numberField("voltageDifferenceV", "Largest drop the maker allows at this current"),
});

export const closedContactDrop = defineCalculation({
  name: "closed-contact-drop",
  title: "Voltage across a closed DC pole",
  input,
  compute({ measuredV, allowedV }) {
    const dropV = Math.abs(measuredV);
    const substituted = `abs(${shown(measuredV)})`;
    return answer({
      steps: [worked("Drop", "|U|", substituted, dropV, "V", BENCH_PRACTICE)],
      from: [BENCH_PRACTICE],
      caution: CAUTION.battery,
      judged: atMost(dropV, allowedV, "V"),
    });
  },
  example: { measuredV: -0.02, allowedV: 0.1 },
});
