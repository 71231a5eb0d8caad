// Circuits tested together read lower than each alone: 1/R = Σ 1/Rn. A low reading of a
// whole board need not mean a faulty circuit.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { listField, numberField } from "../fields.ts";
import { atLeast } from "../judgement.ts";
import { shown } from "../number-text.ts";
import { parallelOhm } from "../resistance-networks.ts";
import { CIRCUIT_LAW } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  circuitsMohm: listField("insulationMohm", "Insulation resistance of each circuit, MΩ", 1),
  minMohm: numberField("insulationMohm", "Least value for the circuits together").optional(),
});

export const insulationInParallel = defineCalculation({
  name: "insulation-in-parallel",
  title: "Insulation resistance of circuits tested together",
  input,
  compute({ circuitsMohm, minMohm }) {
    const together = parallelOhm(circuitsMohm);
    if (!together.ok) return together;
    const sum = circuitsMohm.map((reading) => `1/${shown(reading)}`).join(" + ");
    return answer({
      steps: [worked("Together", "1 / Σ(1/R)", `1 / (${sum})`, together.value, "MΩ", CIRCUIT_LAW)],
      from: [CIRCUIT_LAW],
      caution: CAUTION.insulationTest,
      notes: ["When the whole reads too low, divide the circuits and test each part."],
      judged: minMohm === undefined ? undefined : atLeast(together.value, minMohm, "MΩ"),
    });
  },
  example: { circuitsMohm: [2, 5, 10], minMohm: 1 },
});
