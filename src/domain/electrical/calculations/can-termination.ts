// How many terminators a CAN bus has, by the resistance between its wires: 60 Ω for the
// two it needs, 120 Ω for one, 40 Ω for three. ISO 11898-2.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { canBandOhm, diagnoseCan } from "../can-termination.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { within } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { CAN_TERMINATION } from "../tables/workshop-rules.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  measuredOhm: numberField(
    "resistanceOhm",
    "Resistance between CANH and CANL with every device switched off",
  ),
});

export const canTermination = defineCalculation({
  name: "can-termination",
  title: "Termination of a CAN bus",
  input,
  compute({ measuredOhm }) {
    const diagnosis = diagnoseCan(measuredOhm);
    if (!diagnosis.ok) return diagnosis;
    const { wanted, nominalOhm } = CAN_TERMINATION;
    const band = canBandOhm(wanted);
    return answer({
      steps: [
        lookedUp("One terminator", CAN_TERMINATION, "nominal", nominalOhm, "Ω"),
        worked(
          "Two in parallel",
          "R / 2",
          filled`${nominalOhm} / ${wanted}`,
          nominalOhm / wanted,
          "Ω",
          CAN_TERMINATION,
        ),
      ],
      from: [CAN_TERMINATION],
      caution: CAUTION.deadTest,
      notes: [diagnosis.finding],
      judged: within(measuredOhm, band.minOhm, band.maxOhm, "Ω"),
    });
  },
  example: { measuredOhm: 60.4 },
});
