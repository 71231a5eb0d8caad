// How many modules may stand in series before the coldest morning exceeds the equipment's
// limit; the coefficient and the table may allow different numbers. NEC 690.7(A).
import { z } from "zod";
import { defineCalculation, refuse, type Step } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { filled, shown } from "../number-text.ts";
import { coldCoefficientVocV, coldTableVocV, modulesWithin } from "../pv-string.ts";
import { COLD_BY_COEFFICIENT, COLD_FACTOR_TABLE } from "../tables/pv-rules.ts";
import type { Citation } from "../tables/reference-table.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  moduleVocV: numberField("voltageV", "Open-circuit voltage of one module at 25 °C, 1000 W/m²"),
  betaPercentPerK: numberField("percentPerK", "Voltage coefficient, negative for silicon"),
  lowestC: numberField("temperatureC", "Lowest expected air temperature"),
  limitV: numberField("voltageV", "Highest DC voltage the equipment stands"),
});

function countStep(label: string, limitV: number, moduleV: number, from: Citation): Step {
  const substituted = filled`floor(${limitV} / ${moduleV})`;
  const modules = modulesWithin(limitV, moduleV);
  return worked(label, "floor(limit / cold Voc)", substituted, modules, "modules", from);
}

export const pvMaxSeriesModules = defineCalculation({
  name: "pv-max-series-modules",
  title: "Most PV modules in series",
  input,
  compute({ moduleVocV, betaPercentPerK, lowestC, limitV }) {
    const byCoefficient = coldCoefficientVocV(moduleVocV, betaPercentPerK, lowestC);
    if (!byCoefficient.ok) return byCoefficient;
    const byTable = coldTableVocV(moduleVocV, lowestC);
    const first = countStep("By coefficient", limitV, byCoefficient.value, COLD_BY_COEFFICIENT);
    const second = byTable.ok
      ? [countStep("By table", limitV, byTable.value, COLD_FACTOR_TABLE)]
      : [];
    const fewest = [first, ...second].reduce((a, b) => (b.result < a.result ? b : a));
    if (fewest.result < 1) {
      const problem =
        `Not even one module of ${shown(moduleVocV)} V stays within ${shown(limitV)} V at ` +
        `${shown(lowestC)} °C; check the limit and the data sheet.`;
      return refuse("not-applicable", problem);
    }
    const methods = "The methods may allow different numbers; the smaller is taken as the result.";
    return answer({
      steps: [first, ...second],
      from: [COLD_BY_COEFFICIENT, COLD_FACTOR_TABLE],
      caution: CAUTION.pv,
      notes: byTable.ok ? [methods] : [`The factor table is not shown. ${byTable.problem}`],
      result: fewest,
    });
  },
  example: { moduleVocV: 49.5, betaPercentPerK: -0.27, lowestC: -10, limitV: 600 },
});
