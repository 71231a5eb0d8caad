// Largest electrode resistance behind an RCD in a TT system: IEC 60364-4-41 411.5.3,
// BS 7671 Table 41.5.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { isUnstableElectrode, maxElectrodeOhm } from "../earth-electrode.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled, shown } from "../number-text.ts";
import { TT_ELECTRODE } from "../tables/earth-electrode-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  residualCurrentMa: numberField("residualCurrentMa", "Rated residual current IΔn of the RCD"),
  touchVoltageV: z
    .union([z.literal(50), z.literal(25)])
    .describe("Permitted touch voltage: 50 V, or 25 V where a special location asks for it")
    .default(50),
  measuredOhm: numberField("resistanceOhm", "Electrode resistance as read").optional(),
});

export const ttElectrodeResistance = defineCalculation({
  name: "tt-electrode-resistance",
  title: "Largest earth-electrode resistance in a TT system",
  input,
  compute({ residualCurrentMa, touchVoltageV, measuredOhm }) {
    const limit = maxElectrodeOhm(residualCurrentMa, touchVoltageV);
    if (!limit.ok) return limit;
    const unstable = measuredOhm !== undefined && isUnstableElectrode(measuredOhm);
    const stability =
      `An electrode above ${shown(TT_ELECTRODE.unstableAboveOhm)} Ω may not be stable when the ` +
      "ground dries out or freezes";
    return answer({
      steps: [
        worked(
          "Largest RA",
          "UL / (IΔn / 1000)",
          filled`${touchVoltageV} / (${residualCurrentMa} / 1000)`,
          limit.value,
          "Ω",
          TT_ELECTRODE,
        ),
      ],
      from: [TT_ELECTRODE],
      caution: CAUTION.liveTest,
      notes: [
        unstable ? `${stability}; this one is: improve it or check it again.` : `${stability}.`,
      ],
      judged: measuredOhm === undefined ? undefined : atMost(measuredOhm, limit.value, "Ω"),
    });
  },
  example: { residualCurrentMa: 30, touchVoltageV: 50, measuredOhm: 84 },
});
