// Voltage drop of an AC run by the formula of IEC 60364-5-52 Annex G, held to the limits
// of its Table G.52.1.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled, shown } from "../number-text.ts";
import { ANNEX_G, DROP_LIMITS } from "../tables/voltage-drop-data.ts";
import { annexGDropV, dropLimitPercent, MATERIALS, PHASES, sinPhi } from "../voltage-drop.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  phases: choiceField(PHASES, "Kind of circuit; three-phase drop is line to neutral").default(
    "single-phase",
  ),
  material: choiceField(MATERIALS, "Conductor material").default("copper"),
  areaMm2: numberField("areaMm2", "Conductor area"),
  lengthM: numberField("lengthM", "Length of the run, one way"),
  currentA: numberField("currentA", "Design current"),
  powerFactor: numberField("powerFactor", "cos φ of the load"),
  u0V: numberField("voltageV", "Nominal voltage to neutral").default(230),
  supply: choiceField(["public", "private"], "Who feeds the installation").default("public"),
  use: choiceField(["lighting", "other"], "What the circuit feeds").default("other"),
});

type Run = z.output<typeof input>;

function dropStep(run: Run, dropV: number) {
  const { areaMm2, lengthM, currentA, powerFactor } = run;
  const pathFactor = ANNEX_G.pathFactor[run.phases];
  const resistivity = ANNEX_G.resistivity[run.material];
  const reactance = ANNEX_G.reactanceOhmPerM;
  const resistive = filled`${resistivity} × ${lengthM} / ${areaMm2} × ${powerFactor}`;
  const reactive = filled`${reactance} × ${lengthM} × ${sinPhi(powerFactor)}`;
  const formula = "b × (ρ1 × L / S × cosφ + λ × L × sinφ) × I";
  const perAmp = `${shown(pathFactor)} × (${resistive} + ${reactive})`;
  const substituted = `${perAmp} × ${shown(currentA)}`;
  return worked("Voltage drop", formula, substituted, dropV, "V", ANNEX_G);
}

export const voltageDropIec = defineCalculation({
  name: "voltage-drop-iec",
  title: "Voltage drop (IEC, Annex G)",
  input,
  compute(run) {
    const drop = annexGDropV(run);
    if (!drop.ok) return drop;
    const percent = (100 * drop.value) / run.u0V;
    const limit = dropLimitPercent(run.supply, run.use, run.lengthM);
    const volts = dropStep(run, drop.value);
    const share = filled`100 × ${drop.value} / ${run.u0V}`;
    return answer({
      steps: [
        volts,
        worked("Of the nominal voltage", "100 × u / U0", share, percent, "%"),
        lookedUp("Allowed", DROP_LIMITS, `${run.supply} supply, ${run.use}`, limit, "%"),
      ],
      from: [ANNEX_G, DROP_LIMITS],
      caution: CAUTION.design,
      notes: ["Beyond 100 m the limit grows by 0.005 % per metre, by 0.5 % at most."],
      judged: atMost(percent, limit, "%"),
      result: volts,
    });
  },
  example: {
    phases: "single-phase",
    material: "copper",
    areaMm2: 6,
    lengthM: 20,
    currentA: 32,
    powerFactor: 0.8,
    u0V: 230,
    supply: "public",
    use: "other",
  },
});
