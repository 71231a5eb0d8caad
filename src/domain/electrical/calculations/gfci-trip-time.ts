// Longest trip time of a class A ground-fault circuit interrupter: (20 / I)^1.43 s, UL 943.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { gfciMaxTripS } from "../residual-current.ts";
import { GFCI_CLASS_A } from "../tables/rcd-trip-limits.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  faultCurrentMa: numberField("leakageCurrentMa", "Fault current to ground used for the test"),
  measuredS: numberField("tripTimeS", "Trip time as read").optional(),
});

export const gfciTripTime = defineCalculation({
  name: "gfci-trip-time",
  title: "Trip time of a class A GFCI",
  input,
  compute({ faultCurrentMa, measuredS }) {
    const limit = gfciMaxTripS(faultCurrentMa);
    if (!limit.ok) return limit;
    const { numeratorMa, exponent } = GFCI_CLASS_A;
    return answer({
      steps: [
        worked(
          "Longest trip time",
          "(20 / I) ^ 1.43",
          filled`(${numeratorMa} / ${faultCurrentMa}) ^ ${exponent}`,
          limit.value,
          "s",
          GFCI_CLASS_A,
        ),
      ],
      from: [GFCI_CLASS_A],
      caution: CAUTION.liveTest,
      judged: measuredS === undefined ? undefined : atMost(measuredS, limit.value, "s"),
    });
  },
  example: { faultCurrentMa: 20, measuredS: 0.12 },
});
