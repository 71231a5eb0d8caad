// The highest voltage a string can reach, by the module's coefficient and by the factor
// table; the two differ, so both are shown. NEC 690.7(A)(1) and (A)(2).
import { z } from "zod";
import { type Answer, defineCalculation, type Refusal, type Step } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled, shown } from "../number-text.ts";
import { coldCoefficientVocV, coldFactorRow, coldTableVocV } from "../pv-string.ts";
import { COLD_BY_COEFFICIENT, COLD_FACTOR_TABLE } from "../tables/pv-rules.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  moduleVocV: numberField("voltageV", "Open-circuit voltage of one module at 25 °C, 1000 W/m²"),
  betaPercentPerK: numberField("percentPerK", "Voltage coefficient, negative for silicon"),
  lowestC: numberField("temperatureC", "Lowest expected air temperature"),
  modules: numberField("moduleCount", "Modules in series"),
  limitV: numberField("voltageV", "Highest DC voltage the equipment stands").optional(),
});

type ColdString = z.output<typeof input>;

function byCoefficient(string: ColdString): { ok: true; step: Step } | Refusal {
  const { moduleVocV, betaPercentPerK, lowestC, modules } = string;
  const volts = coldCoefficientVocV(moduleVocV, betaPercentPerK, lowestC, modules);
  if (!volts.ok) return volts;
  const formula = "N × Voc × (1 + β/100 × (T − 25))";
  const warm = filled`${modules} × ${moduleVocV}`;
  const substituted = `${warm} × ${filled`(1 + ${betaPercentPerK}/100 × (${lowestC} − 25))`}`;
  const step = worked(
    "By coefficient",
    formula,
    substituted,
    volts.value,
    "V",
    COLD_BY_COEFFICIENT,
  );
  return { ok: true, step };
}

function byTable(string: ColdString): { steps: Step[]; note?: string } {
  const { moduleVocV, lowestC, modules } = string;
  const found = coldFactorRow(lowestC);
  const volts = coldTableVocV(moduleVocV, lowestC, modules);
  if (!found.ok || !volts.ok) {
    return { steps: [], note: `The factor table is not shown. ${found.ok ? "" : found.problem}` };
  }
  const { factor, downToC } = found.row;
  const rowName = `down to ${shown(downToC)} °C`;
  const substituted = filled`${modules} × ${moduleVocV} × ${factor}`;
  return {
    steps: [
      lookedUp("Cold factor", COLD_FACTOR_TABLE, rowName, factor, "(no unit)"),
      worked("By table", "N × Voc × factor", substituted, volts.value, "V", COLD_FACTOR_TABLE),
    ],
  };
}

function answerFor(string: ColdString, coefficient: Step): Answer {
  const table = byTable(string);
  const tableV = table.steps.at(-1);
  const highest = tableV && tableV.result > coefficient.result ? tableV : coefficient;
  const { limitV } = string;
  const methods = "The two methods differ; the higher voltage is taken as the result.";
  return answer({
    steps: [coefficient, ...table.steps],
    from: [COLD_BY_COEFFICIENT, COLD_FACTOR_TABLE],
    caution: CAUTION.pv,
    notes: [table.note ?? methods],
    judged: limitV === undefined ? undefined : atMost(highest.result, limitV, "V"),
    result: highest,
  });
}

export const pvColdVoltage = defineCalculation({
  name: "pv-cold-voltage",
  title: "Highest voltage of a PV string in the cold",
  input,
  compute(string) {
    const coefficient = byCoefficient(string);
    return coefficient.ok ? answerFor(string, coefficient.step) : coefficient;
  },
  example: { moduleVocV: 49.5, betaPercentPerK: -0.27, lowestC: -10, modules: 10, limitV: 600 },
});
