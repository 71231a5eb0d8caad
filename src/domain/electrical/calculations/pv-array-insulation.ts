// Test voltage and least insulation resistance of a PV array: IEC 62446-1, 6.7.
import { z } from "zod";
import { defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { pvInsulationRow } from "../insulation.ts";
import { atLeast } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { PV_INSULATION } from "../tables/insulation-minima.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  vocStcV: numberField("voltageV", "Open-circuit voltage of the string at standard conditions"),
  arrayKwp: numberField("arrayPowerKwp", "Peak power of the array under test"),
  measuredMohm: numberField("insulationMohm", "Insulation resistance as read").optional(),
});

export const pvArrayInsulation = defineCalculation({
  name: "pv-array-insulation",
  title: "Insulation resistance of a PV array",
  input,
  compute({ vocStcV, arrayKwp, measuredMohm }) {
    const { maxArrayKwp, voltageFactor } = PV_INSULATION;
    if (arrayKwp > maxArrayKwp) {
      const problem =
        `These minima are for arrays up to ${maxArrayKwp} kWp and this one has ${arrayKwp} ` +
        `kWp; test it in sections of at most ${maxArrayKwp} kWp.`;
      return refuse("not-applicable", problem);
    }
    const found = pvInsulationRow(vocStcV);
    if (!found.ok) return found;
    const { upToV, including, testV, minMohm } = found.row;
    const rowName = `system voltage ${including ? "up to" : "below"} ${upToV} V`;
    const substituted = filled`${voltageFactor} × ${vocStcV}`;
    const systemV = voltageFactor * vocStcV;
    return answer({
      steps: [
        worked("System voltage", "1.25 × Voc,stc", substituted, systemV, "V", PV_INSULATION),
        lookedUp("Test voltage", PV_INSULATION, rowName, testV, "V DC"),
        lookedUp("Least insulation resistance", PV_INSULATION, rowName, minMohm, "MΩ"),
      ],
      from: [PV_INSULATION],
      caution: CAUTION.pv,
      judged: measuredMohm === undefined ? undefined : atLeast(measuredMohm, minMohm, "MΩ"),
    });
  },
  example: { vocStcV: 594, arrayKwp: 5.4, measuredMohm: 86 },
});
