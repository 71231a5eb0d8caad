// The current a dead short would draw, and whether the device can break it: U / Z,
// IEC 60364-4-43 434.5.1.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { prospectiveFaultA } from "../resistance-networks.ts";
import { PROSPECTIVE_FAULT } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  voltageV: numberField("voltageV", "Nominal voltage across the fault"),
  impedanceOhm: numberField("impedanceOhm", "Impedance of the fault loop"),
  breakingCapacityA: numberField(
    "faultCurrentA",
    "Rated breaking capacity of the device",
  ).optional(),
});

export const prospectiveFaultCurrent = defineCalculation({
  name: "prospective-fault-current",
  title: "Prospective fault current",
  input,
  compute({ voltageV, impedanceOhm, breakingCapacityA }) {
    const fault = prospectiveFaultA(voltageV, impedanceOhm);
    if (!fault.ok) return fault;
    const judged =
      breakingCapacityA === undefined ? undefined : atMost(fault.value, breakingCapacityA, "A");
    const substituted = filled`${voltageV} / ${impedanceOhm}`;
    return answer({
      steps: [worked("Fault current", "U / Z", substituted, fault.value, "A", PROSPECTIVE_FAULT)],
      from: [PROSPECTIVE_FAULT],
      caution: CAUTION.liveTest,
      notes: [
        "Take the highest value at the device: lowest impedance, cold conductors, every " +
          "source that " +
          "can feed it.",
      ],
      judged,
    });
  },
  example: { voltageV: 230, impedanceOhm: 0.25, breakingCapacityA: 6000 },
});
