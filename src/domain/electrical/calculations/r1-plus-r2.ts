// Resistance of line and protective conductor in series, cold and at operating
// temperature: IEC 60228 values by the method of BS 7671.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { copperOhmPerKm, temperatureFactor, temperatureMethod } from "../conductor-resistance.ts";
import { numberField } from "../fields.ts";
import { filled } from "../number-text.ts";
import { COPPER_RESISTANCE } from "../tables/conductor-resistance-iec.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  lineAreaMm2: numberField("areaMm2", "Area of the line conductor"),
  protectiveAreaMm2: numberField("areaMm2", "Area of the protective conductor"),
  conductorClass: z
    .union([z.literal(2), z.literal(5)])
    .describe("Conductor class of IEC 60228: 2 stranded, 5 flexible")
    .default(2),
  lengthM: numberField("lengthM", "Length of the circuit, one way"),
  temperatureC: numberField("temperatureC", "Conductor temperature: 20 °C cold, 70 °C for PVC hot"),
});

export const r1PlusR2 = defineCalculation({
  name: "r1-plus-r2",
  title: "R1+R2 of a circuit",
  input,
  compute({ lineAreaMm2, protectiveAreaMm2, conductorClass, lengthM, temperatureC }) {
    const line = copperOhmPerKm(conductorClass, lineAreaMm2);
    if (!line.ok) return line;
    const earth = copperOhmPerKm(conductorClass, protectiveAreaMm2);
    if (!earth.ok) return earth;
    const method = temperatureMethod("iec-60228-kt", temperatureC);
    if (!method.ok) return method;
    const factor = temperatureFactor(method.row.perK, temperatureC);
    const cold = (lengthM * (line.value + earth.value)) / 1000;
    const table = COPPER_RESISTANCE;
    const row = (areaMm2: number) => `${areaMm2} mm², class ${conductorClass}`;
    return answer({
      steps: [
        lookedUp("Line conductor", table, row(lineAreaMm2), line.value, "Ω/km"),
        lookedUp("Protective conductor", table, row(protectiveAreaMm2), earth.value, "Ω/km"),
        worked(
          "R1+R2 at 20 °C",
          "L × (r1 + r2) / 1000",
          filled`${lengthM} × (${line.value} + ${earth.value}) / 1000`,
          cold,
          "Ω",
        ),
        worked(
          `R1+R2 at ${temperatureC} °C`,
          "R20 × (1 + 0.004 × (t − 20))",
          filled`${cold} × (1 + 0.004 × (${temperatureC} − 20))`,
          cold * factor,
          "Ω",
          method.row,
        ),
      ],
      from: [table, method.row],
      caution: CAUTION.deadTest,
      notes: ["The table gives largest values: a sound circuit reads at or below them."],
    });
  },
  example: {
    lineAreaMm2: 2.5,
    protectiveAreaMm2: 1.5,
    conductorClass: 2,
    lengthM: 20,
    temperatureC: 70,
  },
});
