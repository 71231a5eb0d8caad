// Currents to size PV source circuits for: 1.25·Isc for strong sun, and 1.25 times that
// for continuous load. NEC 690.8(A) and (B).
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { atLeast } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { pvMaxCurrentA } from "../pv-string.ts";
import { PV_CURRENT } from "../tables/pv-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  moduleIscA: numberField("currentA", "Short-circuit current of one module at 25 °C, 1000 W/m²"),
  strings: numberField("stringCount", "Strings in parallel on the circuit").default(1),
  ampacityA: numberField("currentA", "Ampacity of the conductor before derating").optional(),
});

export const pvCircuitCurrent = defineCalculation({
  name: "pv-circuit-current",
  title: "Design current of a PV circuit (NEC)",
  input,
  compute({ moduleIscA, strings, ampacityA }) {
    const maximum = pvMaxCurrentA(moduleIscA, strings);
    if (!maximum.ok) return maximum;
    const { factor } = PV_CURRENT;
    const conductorA = factor * maximum.value;
    return answer({
      steps: [
        worked(
          "Maximum current, 690.8(A)",
          "1.25 × Isc × N",
          filled`${factor} × ${moduleIscA} × ${strings}`,
          maximum.value,
          "A",
          PV_CURRENT,
        ),
        worked(
          "Conductor and device, 690.8(B)",
          "1.25 × Imax",
          filled`${factor} × ${maximum.value}`,
          conductorA,
          "A",
          PV_CURRENT,
        ),
      ],
      from: [PV_CURRENT],
      caution: CAUTION.pv,
      judged: ampacityA === undefined ? undefined : atLeast(ampacityA, conductorA, "A"),
    });
  },
  example: { moduleIscA: 13.5, strings: 1, ampacityA: 25 },
});
