// A single rod that reads more than 25 Ω needs a second electrode: NEC 250.53(A)(2).
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { SINGLE_ROD } from "../tables/earth-electrode-rules.ts";
import { answer, lookedUp } from "../working.ts";

const input = z.strictObject({
  measuredOhm: numberField("resistanceOhm", "Resistance of the single rod, pipe or plate as read"),
});

export const singleRodResistance = defineCalculation({
  name: "single-rod-resistance",
  title: "Resistance of a single grounding rod (US)",
  input,
  compute({ measuredOhm }) {
    const { maxOhm } = SINGLE_ROD;
    const judged = atMost(measuredOhm, maxOhm, "Ω");
    const wayOut = "Add a second electrode; with two electrodes no resistance need be met.";
    return answer({
      steps: [lookedUp("Largest resistance of one rod", SINGLE_ROD, "single rod", maxOhm, "Ω")],
      from: [SINGLE_ROD],
      caution: CAUTION.deadTest,
      notes: judged.passes ? [] : [wayOut],
      judged,
    });
  },
  example: { measuredOhm: 18.5 },
});
