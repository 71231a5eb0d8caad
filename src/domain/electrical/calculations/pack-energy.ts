// Energy of a bank, which the siting rules add up: nominal voltage × capacity × packs.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { filled } from "../number-text.ts";
import { CIRCUIT_LAW } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  nominalV: numberField("voltageV", "Nominal voltage of one pack"),
  capacityAh: numberField("capacityAh", "Rated capacity of one pack"),
  packs: numberField("packCount", "Packs in the bank").default(1),
});

export const packEnergy = defineCalculation({
  name: "pack-energy",
  title: "Energy of a battery bank",
  input,
  compute({ nominalV, capacityAh, packs }) {
    const energyKwh = (packs * nominalV * capacityAh) / 1000;
    const substituted = filled`${packs} × ${nominalV} × ${capacityAh} / 1000`;
    return answer({
      steps: [worked("Energy", "N × U × C / 1000", substituted, energyKwh, "kWh", CIRCUIT_LAW)],
      from: [CIRCUIT_LAW],
      caution: CAUTION.design,
      notes: ["Where a rating plate states energy, the plate prevails."],
    });
  },
  example: { nominalV: 51.2, capacityAh: 100, packs: 1 },
});
