// Diameter and area of a solid wire by gauge: ASTM B258.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { filled } from "../number-text.ts";
import { WIRE_GAUGE } from "../tables/workshop-rules.ts";
import { gaugeDiameterMm, gaugeNumber } from "../wire-gauge.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  awg: z.string().max(4).describe('Gauge: "4/0", "3/0", "2/0", "1/0" or a number from 1 to 40'),
});

export const wireGaugeArea = defineCalculation({
  name: "wire-gauge-area",
  title: "Diameter and area of a wire gauge",
  input,
  compute({ awg }) {
    const gauge = gaugeNumber(awg);
    if (!gauge.ok) return gauge;
    const { gauge36Mm, ratio, gaugesPerRatio } = WIRE_GAUGE;
    const diameterMm = gaugeDiameterMm(gauge.value);
    return answer({
      steps: [
        worked(
          "Diameter",
          "0.127 × 92 ^ ((36 − n) / 39)",
          filled`${gauge36Mm} × ${ratio} ^ ((36 − ${gauge.value}) / ${gaugesPerRatio})`,
          diameterMm,
          "mm",
          WIRE_GAUGE,
        ),
        worked(
          "Area",
          "π / 4 × d²",
          filled`π / 4 × ${diameterMm}²`,
          (Math.PI / 4) * diameterMm ** 2,
          "mm²",
        ),
      ],
      from: [WIRE_GAUGE],
      caution: CAUTION.design,
      notes: ["Solid wire; a stranded conductor of the same gauge has the same metal area."],
    });
  },
  example: { awg: "12" },
});
