// The short form T = K·F·d (Shigley) and the proof load of ISO 898-1, for a first look and as a
// check on the longer formula: K lumps all friction into one number and may be a quarter off.
import { z } from "zod";
import { BOLT_CAUTION, boltInput, findBolt } from "./bolt.ts";
import { poundFeetStep } from "./bolt-torque.ts";
import { calculation, type Step, shown } from "./calculation.ts";
import type { MetricThread } from "./metric-thread.ts";
import type { PropertyClass } from "./property-class.ts";

const proofInput = z.strictObject(boltInput);
const shortInput = z.strictObject({
  ...boltInput,
  /** Nut factor K. */
  nutFactor: z.number().min(0.05).max(0.5),
  /** Share of the proof load used as preload. */
  proofShare: z.number().min(0.1).max(0.9),
});

/** Proof load in kN. */
export const boltProofLoad = calculation<z.infer<typeof proofInput>>({
  name: "bolt-proof-load",
  title: "Proof load of a steel bolt",
  input: proofInput,
  example: { thread: "M8", propertyClass: "8.8" },
  compute: (values) => {
    const bolt = findBolt(values);
    if (!bolt.ok) return bolt;
    const step = proofStep(bolt.thread, bolt.propertyClass);
    return {
      ok: true,
      result: step.result,
      unit: "kN",
      steps: [step],
      source: "ISO 898-1 (from memory)",
      edition: "2013",
      notes: ["The standard prints proof loads rounded; compare within one per cent."],
      caution: BOLT_CAUTION,
    };
  },
});

/** Torque by the short form, in N·m. */
export const boltTorqueShortForm = calculation<z.infer<typeof shortInput>>({
  name: "bolt-torque-short-form",
  title: "Tightening torque by the short form",
  input: shortInput,
  example: { thread: "M8", propertyClass: "8.8", nutFactor: 0.2, proofShare: 0.75 },
  compute: (values) => {
    const bolt = findBolt(values);
    if (!bolt.ok) return bolt;
    const proof = proofStep(bolt.thread, bolt.propertyClass);
    const preloadKN = values.proofShare * proof.result;
    const torqueNm = values.nutFactor * preloadKN * bolt.thread.nominalMm;
    const preload: Step = {
      label: "Preload",
      formula: "F = share · proof load",
      substituted: `${values.proofShare} · ${shown(proof.result)}`,
      result: preloadKN,
      unit: "kN",
    };
    const torque: Step = {
      label: "Tightening torque",
      formula: "T = K · F · d",
      substituted: `${values.nutFactor} · ${shown(preloadKN)} · ${bolt.thread.nominalMm}`,
      result: torqueNm,
      unit: "N·m",
    };
    return {
      ok: true,
      result: torqueNm,
      unit: "N·m",
      steps: [proof, preload, torque, poundFeetStep(torqueNm)],
      source: "Shigley, Mechanical Engineering Design, T = K·F·d (from memory)",
      edition: "any",
      notes: [
        "K is a guess at all friction together; the bolt torque by VDI 2230 is the better one.",
      ],
      caution: BOLT_CAUTION,
    };
  },
});

function proofStep(thread: MetricThread, strength: PropertyClass): Step {
  return {
    label: "Proof load",
    formula: "Fp = Sp · As",
    substituted: `${strength.proofMPa} · ${shown(thread.stressAreaMm2)} / 1000`,
    result: (strength.proofMPa * thread.stressAreaMm2) / 1000,
    unit: "kN",
    source: "ISO 898-1 (from memory)",
    tableRow: `${thread.name}, class ${strength.name}: Sp ${strength.proofMPa} MPa`,
  };
}
