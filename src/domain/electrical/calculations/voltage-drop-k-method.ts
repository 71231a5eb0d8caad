// Voltage drop by the K method of American handbooks: 2·K·L·I / circular mils.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { exactRow } from "../look-up.ts";
import { filled } from "../number-text.ts";
import { NEC_CONDUCTORS, NEC_GAUGES } from "../tables/conductors-nec.ts";
import { NEC_K_METHOD } from "../tables/voltage-drop-data.ts";
import { MATERIALS, necKDropV, necPathFactor, PHASES } from "../voltage-drop.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  awg: choiceField(NEC_GAUGES, "Conductor size, AWG"),
  material: choiceField(MATERIALS, "Conductor material").default("copper"),
  phases: choiceField(PHASES, "Single-phase, or between lines of three phases").default(
    "single-phase",
  ),
  lengthFt: numberField("lengthFt", "Length of the run, one way"),
  currentA: numberField("currentA", "Load current"),
  nominalV: numberField("voltageV", "Nominal voltage"),
});

export const voltageDropKMethod = defineCalculation({
  name: "voltage-drop-k-method",
  title: "Voltage drop (US handbook K method)",
  input,
  compute({ awg, material, phases, lengthFt, currentA, nominalV }) {
    const drop = necKDropV(awg, lengthFt, currentA, material, phases);
    if (!drop.ok) return drop;
    const found = exactRow(NEC_CONDUCTORS, "awg", awg, "gauge");
    if (!found.ok) return found;
    const { circularMils } = found.row;
    const k = NEC_K_METHOD.kOhmCircularMilPerFt[material];
    const path = necPathFactor(phases);
    const volts = worked(
      "Voltage drop",
      phases === "single-phase" ? "2 × K × L × I / cmil" : "√3 × K × L × I / cmil",
      filled`${path} × ${k} × ${lengthFt} × ${currentA} / ${circularMils}`,
      drop.value,
      "V",
      NEC_K_METHOD,
    );
    const percent = (100 * drop.value) / nominalV;
    const share = filled`100 × ${drop.value} / ${nominalV}`;
    return answer({
      steps: [
        lookedUp("Constant K", NEC_K_METHOD, material, k, "Ω·cmil/ft"),
        lookedUp("Circular mils", NEC_CONDUCTORS, `${awg} AWG`, circularMils, "cmil"),
        volts,
        worked("Of the nominal voltage", "100 × u / U", share, percent, "%"),
      ],
      from: [NEC_K_METHOD, NEC_CONDUCTORS],
      caution: CAUTION.design,
      notes: ["A rule of thumb; it differs a little from the table of resistances."],
      result: volts,
    });
  },
  example: {
    awg: "10",
    material: "copper",
    phases: "single-phase",
    lengthFt: 100,
    currentA: 24,
    nominalV: 240,
  },
});
