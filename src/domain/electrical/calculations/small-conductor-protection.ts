// Protection of a small copper conductor is capped whatever its ampacity: NEC 240.4(D).
import { z } from "zod";
import { smallConductorCapA } from "../ampacity.ts";
import { defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { NEC_GAUGES, SMALL_CONDUCTOR_CAPS } from "../tables/conductors-nec.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  awg: choiceField(NEC_GAUGES, "Conductor size, AWG, copper"),
  ampacityA: numberField("currentA", "Ampacity after derating"),
  deviceA: numberField("protectiveRatingA", "Rating of the overcurrent device").optional(),
});

export const smallConductorProtection = defineCalculation({
  name: "small-conductor-protection",
  title: "Largest overcurrent device for a small conductor (NEC)",
  input,
  compute({ awg, ampacityA, deviceA }) {
    const capA = smallConductorCapA(awg);
    if (capA === undefined) {
      const problem =
        `${SMALL_CONDUCTOR_CAPS.clause} caps 14, 12 and 10 AWG copper; ${awg} AWG is protected ` +
        "by its ampacity, see ampacity-nec.";
      return refuse("not-applicable", problem);
    }
    const largestA = Math.min(capA, ampacityA);
    const substituted = filled`min(${capA}, ${ampacityA})`;
    return answer({
      steps: [
        lookedUp("Cap", SMALL_CONDUCTOR_CAPS, `${awg} AWG copper`, capA, "A"),
        worked("Largest device", "min(cap, ampacity)", substituted, largestA, "A"),
      ],
      from: [SMALL_CONDUCTOR_CAPS],
      caution: CAUTION.design,
      notes: ["The next-size-up rule of 240.4(B) is not applied here."],
      judged: deviceA === undefined ? undefined : atMost(deviceA, largestA, "A"),
    });
  },
  example: { awg: "12", ampacityA: 22, deviceA: 20 },
});
