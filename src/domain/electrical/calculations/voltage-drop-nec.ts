// Voltage drop by NEC Chapter 9 Table 8 resistance at 75 °C, held to the informational
// note of NEC 210.19 (advice, not a requirement).
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { NEC_FORMS, necOhmPerKft } from "../conductor-resistance.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { NEC_CONDUCTORS, NEC_GAUGES } from "../tables/conductors-nec.ts";
import { NEC_DROP_ADVICE } from "../tables/voltage-drop-data.ts";
import { necDropV, necPathFactor, PHASES } from "../voltage-drop.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  awg: choiceField(NEC_GAUGES, "Conductor size, AWG, copper"),
  form: choiceField(NEC_FORMS, "Solid (14 to 8 AWG only) or stranded"),
  phases: choiceField(PHASES, "Single-phase, or between lines of three phases").default(
    "single-phase",
  ),
  lengthFt: numberField("lengthFt", "Length of the run, one way"),
  currentA: numberField("currentA", "Load current"),
  nominalV: numberField("voltageV", "Nominal voltage"),
});

export const voltageDropNec = defineCalculation({
  name: "voltage-drop-nec",
  title: "Voltage drop (NEC, Chapter 9 Table 8)",
  input,
  compute({ awg, form, phases, lengthFt, currentA, nominalV }) {
    const drop = necDropV(awg, form, lengthFt, currentA, phases);
    if (!drop.ok) return drop;
    const perKft = necOhmPerKft(awg, form);
    if (!perKft.ok) return perKft;
    const percent = (100 * drop.value) / nominalV;
    const path = necPathFactor(phases);
    const volts = worked(
      "Voltage drop",
      phases === "single-phase" ? "2 × L × r × I / 1000" : "√3 × L × r × I / 1000",
      filled`${path} × ${lengthFt} × ${perKft.value} × ${currentA} / 1000`,
      drop.value,
      "V",
    );
    const share = filled`100 × ${drop.value} / ${nominalV}`;
    const rowName = `${awg} AWG, ${form}, uncoated copper`;
    return answer({
      steps: [
        lookedUp("Resistance at 75 °C", NEC_CONDUCTORS, rowName, perKft.value, "Ω/kft"),
        volts,
        worked("Of the nominal voltage", "100 × u / U", share, percent, "%"),
      ],
      from: [NEC_CONDUCTORS, NEC_DROP_ADVICE],
      caution: CAUTION.design,
      judged: atMost(percent, NEC_DROP_ADVICE.branchPercent, "%"),
      result: volts,
    });
  },
  example: {
    awg: "10",
    form: "stranded",
    phases: "single-phase",
    lengthFt: 100,
    currentA: 24,
    nominalV: 240,
  },
});
