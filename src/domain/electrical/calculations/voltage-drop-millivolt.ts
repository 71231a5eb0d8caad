// Voltage drop by the tabulated mV/A/m of BS 7671 Table 4D1B, conductors at 70 °C.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { exactRow } from "../look-up.ts";
import { filled } from "../number-text.ts";
import { MILLIVOLTS_BS } from "../tables/voltage-drop-data.ts";
import { millivoltDropV } from "../voltage-drop.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  areaMm2: numberField("areaMm2", "Conductor area, copper, PVC"),
  lengthM: numberField("lengthM", "Length of the run, one way"),
  currentA: numberField("currentA", "Design current"),
  nominalV: numberField("voltageV", "Nominal voltage").default(230),
});

export const voltageDropMillivolt = defineCalculation({
  name: "voltage-drop-millivolt",
  title: "Voltage drop (BS, mV/A/m)",
  input,
  compute({ areaMm2, lengthM, currentA, nominalV }) {
    const drop = millivoltDropV(areaMm2, lengthM, currentA);
    if (!drop.ok) return drop;
    const found = exactRow(MILLIVOLTS_BS, "areaMm2", areaMm2, "a conductor area in mm² of");
    if (!found.ok) return found;
    const { millivoltPerAmpMetre } = found.row;
    const volts = worked(
      "Voltage drop",
      "c × I × L / 1000, c in mV/A/m",
      filled`${millivoltPerAmpMetre} × ${currentA} × ${lengthM} / 1000`,
      drop.value,
      "V",
      MILLIVOLTS_BS,
    );
    const share = filled`100 × ${drop.value} / ${nominalV}`;
    return answer({
      steps: [
        lookedUp("Tabulated", MILLIVOLTS_BS, `${areaMm2} mm²`, millivoltPerAmpMetre, "mV/A/m"),
        volts,
        worked("Of the nominal voltage", "100 × u / U", share, (100 * drop.value) / nominalV, "%"),
      ],
      from: [MILLIVOLTS_BS],
      caution: CAUTION.design,
      notes: ["Tabulated for conductors at their operating temperature; a light load drops less."],
      result: volts,
    });
  },
  example: { areaMm2: 6, lengthM: 20, currentA: 32, nominalV: 230 },
});
