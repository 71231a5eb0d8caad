// At half its rated residual current an RCD must stay closed, or ordinary leakage will
// trip it: IEC 61008-1 / 61009-1.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import type { Judgement } from "../judgement.ts";
import { filled, shown } from "../number-text.ts";
import { RCD_TRIP_CURRENTS } from "../tables/rcd-trip-limits.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  residualCurrentMa: numberField("residualCurrentMa", "Rated residual current IΔn"),
  tripped: z.boolean().describe("Whether the device tripped at half its rated residual current"),
});

export const rcdNoTrip = defineCalculation({
  name: "rcd-no-trip",
  title: "Half-current test of a residual current device",
  input,
  compute({ residualCurrentMa, tripped }) {
    const halfMa = residualCurrentMa / 2;
    const sentence = tripped
      ? `Tripped at ${shown(halfMa)} mA, where it must not: disconnect the loads and test ` +
        "again; if it still trips, replace it."
      : `Stayed closed at ${shown(halfMa)} mA, as it must.`;
    const margin = tripped ? -halfMa : 0;
    const judged: Judgement = { passes: !tripped, margin, unit: "mA", sentence };
    const substituted = filled`0.5 × ${residualCurrentMa}`;
    return answer({
      steps: [
        worked("Must not trip at", "0.5 × IΔn", substituted, halfMa, "mA", RCD_TRIP_CURRENTS),
      ],
      from: [RCD_TRIP_CURRENTS],
      caution: CAUTION.liveTest,
      judged,
    });
  },
  example: { residualCurrentMa: 30, tripped: false },
});
