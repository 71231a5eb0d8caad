// What a wall-hung unit asks of its anchors: every anchor takes its share of the weight in shear,
// and the top row holds back the weight's turning over the lower edge of the bracket (statics).
import { z } from "zod";
import { calculation, type Step, shown } from "./calculation.ts";

/** Standard gravity, exact (ISO 80000-3). */
const GRAVITY = 9.80665;

export const WALL_CAUTION =
  "The wall itself must carry the load: have it assessed. Two-person lift or lifting " +
  "aid; keep clear below. The maker's mounting instructions prevail.";

export const wallLoadInput = {
  massKg: z.number().positive().max(2000),
  /** All anchors, equally shared in shear. */
  anchors: z.int().min(2).max(40),
  /** Anchors of the top row, equally shared in tension. */
  topAnchors: z.int().min(1).max(20),
  /** From the wall's face to the unit's centre of gravity. */
  eccentricityM: z.number().positive().max(2),
  /** From the lower edge that the bracket bears on up to the top row. */
  leverArmM: z.number().positive().max(5),
};

const input = z.strictObject(wallLoadInput).refine((values) => values.topAnchors < values.anchors, {
  message: "the top row has fewer anchors than there are in all",
  path: ["topAnchors"],
});
export type WallLoadInput = z.infer<typeof input>;

const example: WallLoadInput = {
  massKg: 110,
  anchors: 4,
  topAnchors: 2,
  eccentricityM: 0.15,
  leverArmM: 0.6,
};
const source = "Statics, standard gravity 9.80665 m/s²";
const notes = [
  "Rigid bracket, anchors alike, dead weight only: no impact, leaning, vibration or earthquake.",
  "Mass is that of everything that hangs on the bracket, cables and cover included.",
];

/** Weight, shear and tension, each a step; N and N·m. */
export function wallLoadSteps(values: WallLoadInput) {
  const { anchors, topAnchors, eccentricityM, leverArmM } = values;
  const weightN = values.massKg * GRAVITY;
  const momentNm = weightN * eccentricityM;
  const topN = momentNm / leverArmM;
  const weight: Step = {
    label: "Weight",
    formula: "W = m · g",
    substituted: `${values.massKg} · ${GRAVITY}`,
    result: weightN,
    unit: "N",
  };
  const moment: Step = {
    label: "Overturning moment",
    formula: "M = W · e",
    substituted: `${shown(weightN)} · ${eccentricityM}`,
    result: momentNm,
    unit: "N·m",
  };
  return {
    weight,
    moment,
    shearEach: quotient("Shear on each anchor", "V = W / n", weightN, anchors),
    tensionTop: quotient("Tension of the top row", "T = M / h", momentNm, leverArmM),
    tensionEach: quotient("Tension on each top anchor", "N = T / n_top", topN, topAnchors),
  };
}

function quotient(label: string, formula: string, whole: number, by: number): Step {
  const substituted = `${shown(whole)} / ${by}`;
  return { label, formula, substituted, result: whole / by, unit: "N" };
}

/** Shear on each anchor, N. */
export const wallLoadShear = calculation<WallLoadInput>({
  name: "wall-load-shear",
  title: "Shear on each anchor of a wall-hung unit",
  input,
  example,
  compute: (values) => {
    const { weight, shearEach } = wallLoadSteps(values);
    const steps = [weight, shearEach];
    const caution = WALL_CAUTION;
    return {
      ok: true,
      result: shearEach.result,
      unit: "N",
      steps,
      source,
      edition: "none",
      notes,
      caution,
    };
  },
});

/** Tension on each anchor of the top row, N. */
export const wallLoadTension = calculation<WallLoadInput>({
  name: "wall-load-tension",
  title: "Tension on each top anchor of a wall-hung unit",
  input,
  example,
  compute: (values) => {
    const { weight, moment, tensionTop, tensionEach } = wallLoadSteps(values);
    const steps = [weight, moment, tensionTop, tensionEach];
    const caution = WALL_CAUTION;
    return {
      ok: true,
      result: tensionEach.result,
      unit: "N",
      steps,
      source,
      edition: "none",
      notes,
      caution,
    };
  },
});
