// A class A ground-fault circuit interrupter trips between 4 and 6 mA: UL 943.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { within } from "../judgement.ts";
import { GFCI_CLASS_A } from "../tables/rcd-trip-limits.ts";
import { answer, lookedUp } from "../working.ts";

const input = z.strictObject({
  measuredMa: numberField("leakageCurrentMa", "Current at which the device tripped"),
});

export const gfciTripCurrent = defineCalculation({
  name: "gfci-trip-current",
  title: "Trip current of a class A GFCI",
  input,
  compute({ measuredMa }) {
    const { tripFromMa, tripByMa } = GFCI_CLASS_A;
    return answer({
      steps: [
        lookedUp("Must not trip below", GFCI_CLASS_A, "trip band", tripFromMa, "mA"),
        lookedUp("Must have tripped by", GFCI_CLASS_A, "trip band", tripByMa, "mA"),
      ],
      from: [GFCI_CLASS_A],
      caution: CAUTION.liveTest,
      judged: within(measuredMa, tripFromMa, tripByMa, "mA"),
    });
  },
  example: { measuredMa: 5.1 },
});
