// Preload and tightening torque of a steel bolt by VDI 2230 Blatt 1 (formulas from memory): tension
// and torsion together load it to a share of its yield; hexagon head, medium hole.
import { z } from "zod";
import { BOLT_CAUTION, type Bolt, boltInput, findBolt } from "./bolt.ts";
import { calculation, type Step, shown } from "./calculation.ts";
import { NM_PER_LBF_FT } from "./pound-feet.ts";

const source = "VDI 2230 Blatt 1 (formulas from memory)";
const edition = "2015";

const input = z.strictObject({
  ...boltInput,
  /** Of thread and head bearing alike. */
  frictionCoefficient: z.number().min(0.04).max(0.4),
  /** Share of yield used; VDI 2230 tables use 0.9. */
  yieldShare: z.number().min(0.1).max(0.9),
});
type Input = z.infer<typeof input>;
const example: Input = {
  thread: "M8",
  propertyClass: "8.8",
  frictionCoefficient: 0.12,
  yieldShare: 0.9,
};

const notes = [
  "Friction is an input: a lubricated bolt tightened to a dry bolt's torque is overstressed.",
  "Hexagon head ISO 4014 and hole ISO 273 medium; other heads need another friction diameter.",
];

/** Assembly preload in kN. */
export const boltPreload = calculation<Input>({
  name: "bolt-preload",
  title: "Assembly preload of a steel bolt",
  input,
  example,
  compute: (values) => {
    const bolt = findBolt(values);
    if (!bolt.ok) return bolt;
    const steps = preloadSteps(bolt, values);
    const result = steps.at(-1)?.result ?? Number.NaN;
    return { ok: true, result, unit: "kN", steps, source, edition, notes, caution: BOLT_CAUTION };
  },
});

/** Tightening torque in N·m. */
export const boltTorque = calculation<Input>({
  name: "bolt-torque",
  title: "Tightening torque of a steel bolt",
  input,
  example,
  compute: (values) => {
    const bolt = findBolt(values);
    if (!bolt.ok) return bolt;
    const preload = preloadSteps(bolt, values);
    const torque = torqueStep(bolt, values, preload.at(-1)?.result ?? Number.NaN);
    const steps = [...preload, torque, poundFeetStep(torque.result)];
    return {
      ok: true,
      result: torque.result,
      unit: "N·m",
      steps,
      source,
      edition,
      notes,
      caution: BOLT_CAUTION,
    };
  },
});

function preloadSteps({ thread, propertyClass }: Bolt, values: Input): Step[] {
  const { pitchMm: p, pitchDiameterMm: d2, stressDiameterMm: ds, stressAreaMm2: area } = thread;
  const tableRow =
    `${thread.name}: d2 ${shown(d2)}, dS ${shown(ds)}, P ${p} mm; class ` + `${propertyClass.name}`;
  const friction = values.frictionCoefficient;
  const ratio = 1.5 * (d2 / ds) * (p / (Math.PI * d2) + 1.155 * friction);
  const preloadN =
    (values.yieldShare * propertyClass.yieldMPa * area) / Math.sqrt(1 + 3 * ratio ** 2);
  return [
    {
      label: "Stress area",
      formula: "As = π/4 · dS²",
      substituted: `π/4 · ${shown(ds)}²`,
      result: area,
      unit: "mm²",
      source: "ISO 898-1",
      tableRow,
    },
    {
      label: "Torsion to tension",
      formula: "τ/σ = 1.5 · (d2/dS) · (P/(π·d2) + 1.155·µ)",
      substituted:
        `1.5 · (${shown(d2)}/${shown(ds)}) · ` + `(${p}/(π·${shown(d2)}) + 1.155·${friction})`,
      result: ratio,
      unit: "1",
      source,
    },
    {
      label: "Assembly preload",
      formula: "FM = ν · Rp0.2 · As / √(1 + 3·(τ/σ)²)",
      substituted:
        `${values.yieldShare} · ${propertyClass.yieldMPa} · ${shown(area)} / √(1 + ` +
        `3·${shown(ratio)}²) / 1000`,
      result: preloadN / 1000,
      unit: "kN",
      source,
    },
  ];
}

function torqueStep({ thread }: Bolt, values: Input, preloadKN: number): Step {
  const { pitchMm: p, pitchDiameterMm: d2, headFrictionDiameterMm: dk } = thread;
  const friction = values.frictionCoefficient;
  return {
    label: "Tightening torque",
    formula: "MA = FM · (0.16·P + 0.58·d2·µ + DKm/2·µ)",
    substituted:
      `${shown(preloadKN)} · (0.16·${p} + 0.58·${shown(d2)}·${friction} + ` +
      `${shown(dk)}/2·${friction})`,
    // kN times mm is N·m.
    result: preloadKN * (0.16 * p + 0.58 * d2 * friction + (dk / 2) * friction),
    unit: "N·m",
    source,
    tableRow: `${thread.name}: DKm ${shown(dk)} mm`,
  };
}

/** A torque in N·m told again in lbf·ft (NIST SP 811). */
export function poundFeetStep(torqueNm: number): Step {
  return {
    label: "The same in pound-force feet",
    formula: "M / 1.3558179…",
    substituted: `${shown(torqueNm)} / ${shown(NM_PER_LBF_FT)}`,
    result: torqueNm / NM_PER_LBF_FT,
    unit: "lbf·ft",
    source: "NIST SP 811 App. B",
  };
}
