// What a string should read open-circuit at its cell temperature: IEC 60891 (linear), with
// the 5 % within which IEC 62446-1 expects identical strings to agree.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { filled } from "../number-text.ts";
import { stringVocV } from "../pv-string.ts";
import { bandAround } from "../string-band.ts";
import { STRING_COMPARISON, TRANSLATION } from "../tables/pv-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  moduleVocV: numberField("voltageV", "Open-circuit voltage of one module at 25 °C, 1000 W/m²"),
  modules: numberField("moduleCount", "Modules in series"),
  betaPercentPerK: numberField("percentPerK", "Voltage coefficient, negative for silicon"),
  cellC: numberField("temperatureC", "Cell temperature"),
  measuredV: numberField("signedVoltageV", "String voltage as read, with its sign").optional(),
});

export const pvVocExpected = defineCalculation({
  name: "pv-voc-expected",
  title: "Open-circuit voltage expected of a PV string",
  input,
  compute({ moduleVocV, modules, betaPercentPerK, cellC, measuredV }) {
    const expected = stringVocV(moduleVocV, betaPercentPerK, cellC, modules);
    if (!expected.ok) return expected;
    const band = bandAround(expected.value, "V");
    const voltage = worked(
      "Expected Voc",
      "N × Voc × (1 + β/100 × (T − 25))",
      filled`${modules} × ${moduleVocV} × (1 + ${betaPercentPerK}/100 × (${cellC} − 25))`,
      expected.value,
      "V",
      TRANSLATION,
    );
    return answer({
      steps: [voltage, ...band.steps],
      from: [TRANSLATION, STRING_COMPARISON],
      caution: CAUTION.pv,
      notes: [
        "A negative reading means reversed polarity; do not connect the string.",
        "A string short by the voltage of one module has one missing or bypassed.",
      ],
      judged: measuredV === undefined ? undefined : band.judge(measuredV),
      result: voltage,
    });
  },
  example: { moduleVocV: 49.5, modules: 12, betaPercentPerK: -0.27, cellC: 45, measuredV: 558 },
});
