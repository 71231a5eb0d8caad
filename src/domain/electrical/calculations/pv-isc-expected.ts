// What a string should read short-circuited at the irradiance of the moment: IEC 60891
// (linear).
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { filled } from "../number-text.ts";
import { stringIscA } from "../pv-string.ts";
import { bandAround } from "../string-band.ts";
import { STRING_COMPARISON, TRANSLATION } from "../tables/pv-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  moduleIscA: numberField("currentA", "Short-circuit current of one module at 25 °C, 1000 W/m²"),
  alphaPercentPerK: numberField("percentPerK", "Current coefficient"),
  irradianceWm2: numberField("irradianceWm2", "Irradiance in the plane of the array"),
  cellC: numberField("temperatureC", "Cell temperature"),
  strings: numberField("stringCount", "Identical strings in parallel").default(1),
  measuredA: numberField("currentA", "Short-circuit current as read").optional(),
});

export const pvIscExpected = defineCalculation({
  name: "pv-isc-expected",
  title: "Short-circuit current expected of a PV string",
  input,
  compute({ moduleIscA, alphaPercentPerK, irradianceWm2, cellC, strings, measuredA }) {
    const expected = stringIscA(moduleIscA, alphaPercentPerK, irradianceWm2, cellC, strings);
    if (!expected.ok) return expected;
    const band = bandAround(expected.value, "A");
    const sunlight = filled`${strings} × ${moduleIscA} × ${irradianceWm2} / 1000`;
    const heat = filled`(1 + ${alphaPercentPerK}/100 × (${cellC} − 25))`;
    const formula = "N × Isc × G / 1000 × (1 + α/100 × (T − 25))";
    const current = worked(
      "Expected Isc",
      formula,
      `${sunlight} × ${heat}`,
      expected.value,
      "A",
      TRANSLATION,
    );
    return answer({
      steps: [current, ...band.steps],
      result: current,
      from: [TRANSLATION, STRING_COMPARISON],
      caution: CAUTION.pv,
      notes: ["Irradiance and current must be read at the same moment, under steady sun."],
      judged: measuredA === undefined ? undefined : band.judge(measuredA),
    });
  },
  example: {
    moduleIscA: 13.5,
    alphaPercentPerK: 0.05,
    irradianceWm2: 800,
    cellC: 45,
    strings: 1,
    measuredA: 10.7,
  },
});
