// What a length of copper should read at its temperature: IEC 60228, with the three ways
// in use to carry 20 °C values to another temperature.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import {
  conductorResistanceOhm,
  copperOhmPerKm,
  METHODS,
  temperatureFactor,
  temperatureMethod,
} from "../conductor-resistance.ts";
import { choiceField, numberField } from "../fields.ts";
import { filled } from "../number-text.ts";
import { COPPER_RESISTANCE, TEMPERATURE_METHODS } from "../tables/conductor-resistance-iec.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  conductorClass: z
    .union([z.literal(2), z.literal(5)])
    .describe("Conductor class of IEC 60228: 2 stranded, 5 flexible"),
  areaMm2: numberField("areaMm2", "Nominal conductor area"),
  lengthM: numberField("lengthM", "Length of conductor; count go and return apart"),
  temperatureC: numberField("temperatureC", "Conductor temperature").default(20),
  method: choiceField(METHODS, "How resistance is carried from 20 °C").default("iec-60228-kt"),
});

export const conductorResistance = defineCalculation({
  name: "conductor-resistance",
  title: "Resistance of a copper conductor (IEC)",
  input,
  compute({ conductorClass, areaMm2, lengthM, temperatureC, method }) {
    const total = conductorResistanceOhm(conductorClass, areaMm2, lengthM, temperatureC, method);
    if (!total.ok) return total;
    const perKm = copperOhmPerKm(conductorClass, areaMm2);
    if (!perKm.ok) return perKm;
    const found = temperatureMethod(method, temperatureC);
    if (!found.ok) return found;
    const { perK, formula } = found.row;
    const factor = temperatureFactor(perK, temperatureC);
    const warm = perKm.value * factor;
    const rowName = `${areaMm2} mm², class ${conductorClass}`;
    return answer({
      steps: [
        lookedUp("Largest at 20 °C", COPPER_RESISTANCE, rowName, perKm.value, "Ω/km"),
        worked(
          `At ${temperatureC} °C`,
          formula,
          filled`${perKm.value} × (1 + ${perK} × (${temperatureC} − 20))`,
          warm,
          "Ω/km",
          found.row,
        ),
        worked(
          "Whole length",
          "r × L / 1000",
          filled`${warm} × ${lengthM} / 1000`,
          total.value,
          "Ω",
        ),
      ],
      from: [COPPER_RESISTANCE, found.row, TEMPERATURE_METHODS],
      caution: CAUTION.deadTest,
    });
  },
  example: {
    conductorClass: 2,
    areaMm2: 2.5,
    lengthM: 1000,
    temperatureC: 70,
    method: "alpha-00393",
  },
});
