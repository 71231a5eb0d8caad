// The device must carry the load, protect the cable, and trip before the cable overheats:
// Ib ≤ In ≤ Iz and I2 ≤ 1.45·Iz, IEC 60364-4-43 433.1.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost, type Judgement } from "../judgement.ts";
import { exactRow } from "../look-up.ts";
import { filled } from "../number-text.ts";
import { COORDINATION, OVERLOAD_DEVICES } from "../tables/overload-devices.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  device: choiceField(
    ["breaker-iec-60898", "rcbo-iec-61009", "breaker-iec-60947-2", "fuse-gg"],
    "Kind of overcurrent device; sets its conventional tripping current",
  ),
  ibA: numberField("currentA", "Ib: design current of the circuit"),
  inA: numberField("protectiveRatingA", "In: rating of the device"),
  izA: numberField("currentA", "Iz: capacity of the cable after derating"),
});

/** The comparison with the least room decides; its margin is the margin of the whole. */
function tightest(judgements: readonly [Judgement, ...Judgement[]]): Judgement {
  const least = judgements.reduce((a, b) => (b.margin < a.margin ? b : a));
  return { ...least, sentence: judgements.map((judgement) => judgement.sentence).join(" ") };
}

export const overloadCoordination = defineCalculation({
  name: "overload-coordination",
  title: "Coordination of load, device and cable",
  input,
  compute({ device, ibA, inA, izA }) {
    const found = exactRow(OVERLOAD_DEVICES, "device", device, "device");
    if (!found.ok) return found;
    const { i2Multiple } = found.row;
    const { i2Share } = COORDINATION;
    const i2A = i2Multiple * inA;
    const cableA = i2Share * izA;
    const tripping = worked(
      "Tripping current I2",
      "m × In",
      filled`${i2Multiple} × ${inA}`,
      i2A,
      "A",
    );
    const allowed = filled`${i2Share} × ${izA}`;
    return answer({
      steps: [
        lookedUp("I2 multiple", OVERLOAD_DEVICES, device, i2Multiple, "× In"),
        tripping,
        worked("Allowed I2", "1.45 × Iz", allowed, cableA, "A", COORDINATION),
      ],
      from: [COORDINATION, OVERLOAD_DEVICES],
      caution: CAUTION.design,
      notes: ["Compared in turn: Ib with In, In with Iz, I2 with 1.45 × Iz."],
      judged: tightest([atMost(ibA, inA, "A"), atMost(inA, izA, "A"), atMost(i2A, cableA, "A")]),
      result: tripping,
    });
  },
  example: { device: "breaker-iec-60898", ibA: 28, inA: 32, izA: 36.8 },
});
