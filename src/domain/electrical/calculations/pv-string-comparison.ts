// Identical strings under steady sun agree within 5 %: IEC 62446-1 6.4, 6.5.2. The spread
// is taken between the highest and lowest, relative to the mean, which is the strict
// reading of "within 5 %".
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled, shown } from "../number-text.ts";
import { STRING_COMPARISON } from "../tables/pv-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  quantity: choiceField(["Voc", "Isc"], "What was read: volts or amperes"),
  readings: z
    .array(z.number().gt(0).max(10_000).describe("One string's reading, V or A; above 0"))
    .min(2)
    .max(100)
    .describe("Readings of identical strings, taken under the same sun"),
});

export const pvStringComparison = defineCalculation({
  name: "pv-string-comparison",
  title: "Comparison of identical PV strings",
  input,
  compute({ quantity, readings }) {
    const unit = quantity === "Voc" ? "V" : "A";
    const sum = readings.reduce((total, reading) => total + reading, 0);
    const mean = sum / readings.length;
    const [highest, lowest] = [Math.max(...readings), Math.min(...readings)];
    const spread = (100 * (highest - lowest)) / mean;
    const listed = readings.map(shown).join(" + ");
    return answer({
      steps: [
        worked("Mean", "Σ / n", `(${listed}) / ${readings.length}`, mean, unit),
        worked(
          "Spread",
          "100 × (highest − lowest) / mean",
          filled`100 × (${highest} − ${lowest}) / ${mean}`,
          spread,
          "%",
          STRING_COMPARISON,
        ),
      ],
      from: [STRING_COMPARISON],
      caution: CAUTION.pv,
      judged: atMost(spread, STRING_COMPARISON.percent, "%"),
    });
  },
  example: { quantity: "Voc", readings: [561, 558, 566] },
});
