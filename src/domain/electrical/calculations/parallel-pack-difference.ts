// Packs joined in parallel at different voltages exchange a large current at once. How
// much difference is allowed is the maker's figure: required, no default.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { listField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { CIRCUIT_LAW } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  packsV: listField("voltageV", "Open-circuit voltage of each pack at rest, V", 2),
  allowedDifferenceV: numberField("voltageDifferenceV", "Largest difference the maker allows"),
});

export const parallelPackDifference = defineCalculation({
  name: "parallel-pack-difference",
  title: "Voltage difference of packs before paralleling",
  input,
  compute({ packsV, allowedDifferenceV }) {
    const [highestV, lowestV] = [Math.max(...packsV), Math.min(...packsV)];
    const differenceV = highestV - lowestV;
    const substituted = filled`${highestV} − ${lowestV}`;
    return answer({
      steps: [worked("Difference", "highest − lowest", substituted, differenceV, "V", CIRCUIT_LAW)],
      from: [CIRCUIT_LAW],
      caution: CAUTION.battery,
      notes: ["Charge or discharge the odd pack by the maker's procedure before joining it."],
      judged: atMost(differenceV, allowedDifferenceV, "V"),
    });
  },
  example: { packsV: [52.7, 52.6, 52.8], allowedDifferenceV: 0.5 },
});
