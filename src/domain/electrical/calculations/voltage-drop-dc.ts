// Voltage drop of a two-wire DC run (string or battery cable): 2·L·R·I with IEC 60228
// resistance at the conductor's temperature.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { conductorResistanceOhm } from "../conductor-resistance.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { COPPER_RESISTANCE, TEMPERATURE_METHODS } from "../tables/conductor-resistance-iec.ts";
import { dcDropV } from "../voltage-drop.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  conductorClass: z
    .union([z.literal(2), z.literal(5)])
    .describe("Conductor class of IEC 60228: 2 stranded, 5 flexible"),
  areaMm2: numberField("areaMm2", "Conductor area"),
  lengthM: numberField("lengthM", "Length of the run, one way"),
  currentA: numberField("currentA", "Current in the run"),
  temperatureC: numberField("temperatureC", "Conductor temperature").default(20),
  nominalV: numberField("voltageV", "Nominal voltage of the run"),
  maxPercent: z
    .number()
    .gt(0)
    .max(20)
    .describe("Largest drop the job allows; above 0 to 20 %")
    .optional(),
});

export const voltageDropDc = defineCalculation({
  name: "voltage-drop-dc",
  title: "Voltage drop of a DC run",
  input,
  compute({ conductorClass, areaMm2, lengthM, currentA, temperatureC, nominalV, maxPercent }) {
    const perM = conductorResistanceOhm(conductorClass, areaMm2, 1, temperatureC);
    if (!perM.ok) return perM;
    const drop = dcDropV(conductorClass, areaMm2, lengthM, currentA, temperatureC);
    if (!drop.ok) return drop;
    const percent = (100 * drop.value) / nominalV;
    const rowName = `${areaMm2} mm², class ${conductorClass}, at ${temperatureC} °C`;
    const volts = worked(
      "Voltage drop",
      "2 × L × r × I",
      filled`2 × ${lengthM} × ${perM.value} × ${currentA}`,
      drop.value,
      "V",
    );
    const share = filled`100 × ${drop.value} / ${nominalV}`;
    return answer({
      steps: [
        lookedUp("Resistance per metre", COPPER_RESISTANCE, rowName, perM.value, "Ω/m"),
        volts,
        worked("Of the nominal voltage", "100 × u / U", share, percent, "%"),
      ],
      from: [COPPER_RESISTANCE, TEMPERATURE_METHODS],
      caution: CAUTION.design,
      judged: maxPercent === undefined ? undefined : atMost(percent, maxPercent, "%"),
      result: volts,
    });
  },
  example: {
    conductorClass: 5,
    areaMm2: 4,
    lengthM: 30,
    currentA: 10,
    temperatureC: 20,
    nominalV: 400,
    maxPercent: 1,
  },
});
