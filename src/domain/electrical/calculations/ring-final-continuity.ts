// What each socket of a sound ring final circuit reads after cross-connection:
// (r1 + r2) / 4, IET Guidance Note 3.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { filled } from "../number-text.ts";
import { ringFinalOhm } from "../resistance-networks.ts";
import { RING_FINAL } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  lineEndsOhm: numberField("resistanceOhm", "r1: line conductor of the ring, end to end"),
  earthEndsOhm: numberField("resistanceOhm", "r2: protective conductor, end to end"),
});

export const ringFinalContinuity = defineCalculation({
  name: "ring-final-continuity",
  title: "R1+R2 expected at the sockets of a ring final circuit",
  input,
  compute({ lineEndsOhm, earthEndsOhm }) {
    const expected = ringFinalOhm(lineEndsOhm, earthEndsOhm);
    if (!expected.ok) return expected;
    return answer({
      steps: [
        worked(
          "R1+R2 at each socket",
          "(r1 + r2) / 4",
          filled`(${lineEndsOhm} + ${earthEndsOhm}) / 4`,
          expected.value,
          "Ω",
          RING_FINAL,
        ),
      ],
      from: [RING_FINAL],
      caution: CAUTION.deadTest,
      notes: ["Sockets on the ring read about the same; one on a spur reads more."],
    });
  },
  example: { lineEndsOhm: 0.6, earthEndsOhm: 1 },
});
