// What a length of copper by gauge should read: NEC Chapter 9 Table 8 and its note 2 for
// other temperatures than 75 °C.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { NEC_FORMS, necOhmPerKft, necResistanceOhm } from "../conductor-resistance.ts";
import { choiceField, numberField } from "../fields.ts";
import { filled } from "../number-text.ts";
import { NEC_CONDUCTORS, NEC_GAUGES } from "../tables/conductors-nec.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  awg: choiceField(NEC_GAUGES, "Conductor size, AWG"),
  form: choiceField(NEC_FORMS, "Solid (14 to 8 AWG only) or stranded"),
  lengthFt: numberField("lengthFt", "Length of conductor; count go and return apart"),
  temperatureC: numberField("temperatureC", "Conductor temperature").default(75),
});

export const necConductorResistance = defineCalculation({
  name: "nec-conductor-resistance",
  title: "Resistance of a copper conductor (NEC)",
  input,
  compute({ awg, form, lengthFt, temperatureC }) {
    const total = necResistanceOhm(awg, form, lengthFt, temperatureC);
    if (!total.ok) return total;
    const perKft = necOhmPerKft(awg, form);
    if (!perKft.ok) return perKft;
    const { perK, temperatureC: tableC } = NEC_CONDUCTORS;
    const atTemperature = perKft.value * (1 + perK * (temperatureC - tableC));
    const rowName = `${awg} AWG, ${form}, uncoated copper`;
    return answer({
      steps: [
        lookedUp("At 75 °C", NEC_CONDUCTORS, rowName, perKft.value, "Ω/kft"),
        worked(
          `At ${temperatureC} °C`,
          "R1 × (1 + 0.00323 × (T2 − 75))",
          filled`${perKft.value} × (1 + ${perK} × (${temperatureC} − ${tableC}))`,
          atTemperature,
          "Ω/kft",
          NEC_CONDUCTORS,
        ),
        worked(
          "Whole length",
          "r × L / 1000",
          filled`${atTemperature} × ${lengthFt} / 1000`,
          total.value,
          "Ω",
        ),
      ],
      from: [NEC_CONDUCTORS],
      caution: CAUTION.deadTest,
    });
  },
  example: { awg: "12", form: "solid", lengthFt: 1000, temperatureC: 20 },
});
