// Whether an anchor bears the unit's tension and shear together. There is no generic anchor: its
// design capacities come from its own assessment (an ETA or the maker's approval) and have to be
// typed in with where they stand. There is no default, and no torque is computed.
import { z } from "zod";
import { ANCHOR_RULES, type AnchorRule } from "./anchor-rules.ts";
import { calculation, type Outcome, type Step, shown } from "./calculation.ts";
import { WALL_CAUTION, wallLoadInput, wallLoadSteps } from "./wall-load.ts";

const input = z
  .strictObject({
    ...wallLoadInput,
    /** Partial factor on the weight; EN 1990 has 1.35 for permanent actions (memory). */
    actionFactor: z.number().min(1).max(3),
    /** Design tension capacity of one anchor in this wall, N. */
    tensionCapacityN: z.number().positive().max(1_000_000),
    /** Design shear capacity of one anchor in this wall, N. */
    shearCapacityN: z.number().positive().max(1_000_000),
    /** The assessment that states both capacities. */
    assessment: z.string().trim().min(3).max(120),
    failure: z.enum(["concrete", "steel"]),
    /** Id of a rule in `ANCHOR_RULES`. */
    rule: z.string().max(40),
  })
  .refine((values) => values.topAnchors < values.anchors, {
    message: "the top row has fewer anchors than there are in all",
    path: ["topAnchors"],
  });
export type AnchorCheckInput = z.infer<typeof input>;

/** Utilisation of a top anchor (1 is full); passes at or below the rule's limit. */
export const anchorCheck = calculation<AnchorCheckInput>({
  name: "anchor-check",
  title: "Anchor under tension and shear together",
  input,
  example: {
    massKg: 110,
    anchors: 4,
    topAnchors: 2,
    eccentricityM: 0.15,
    leverArmM: 0.6,
    actionFactor: 1.35,
    tensionCapacityN: 1200,
    shearCapacityN: 1800,
    assessment: "Sample assessment 12/0001, table C3",
    failure: "concrete",
    rule: "en-1992-4-2018",
  },
  compute: (values) => {
    const rule = ANCHOR_RULES.find(({ id }) => id === values.rule);
    if (rule) return checked(values, rule);
    const known = ANCHOR_RULES.map(({ id }) => id).join(", ");
    const problem = `there is no anchor rule ${values.rule}; there are ${known}`;
    return { ok: false, reason: "not-applicable", problem };
  },
});

function checked(values: AnchorCheckInput, rule: AnchorRule): Outcome {
  const { weight, shearEach, moment, tensionTop, tensionEach } = wallLoadSteps(values);
  const tension = designStep("tension", values.actionFactor, tensionEach.result);
  const shear = designStep("shear", values.actionFactor, shearEach.result);
  const exponent = rule.exponents[values.failure];
  const tensionShare = tension.result / values.tensionCapacityN;
  const shearShare = shear.result / values.shearCapacityN;
  const utilisation = tensionShare ** exponent + shearShare ** exponent;
  const combined: Step = {
    label: "Tension and shear together",
    formula: `(N/NRd)^${exponent} + (V/VRd)^${exponent} ≤ ${rule.limit}`,
    substituted:
      `(${shown(tension.result)}/${values.tensionCapacityN})^${exponent} + ` +
      `(${shown(shear.result)}/${values.shearCapacityN})^${exponent}`,
    result: utilisation,
    unit: "1",
    source: `${rule.document} ${rule.clause} (${rule.certainty})`,
    tableRow: `capacities: ${values.assessment}`,
  };
  return {
    ok: true,
    result: utilisation,
    unit: "1",
    steps: [weight, shearEach, moment, tensionTop, tensionEach, tension, shear, combined],
    source: `${rule.document} ${rule.clause}`,
    edition: rule.edition,
    notes: [
      `Exponent ${exponent} for ${values.failure} failure is ${rule.certainty}: check ` +
        "it in the edition adopted.",
      "Concrete and steel failure are both to be checked, each with its own capacities.",
      "Masonry, timber and plasterboard are not concrete: use the assessment for that base.",
      "The anchor's installation torque stands in its assessment; none is computed here.",
    ],
    caution: WALL_CAUTION,
    passes: utilisation <= rule.limit,
    margin: rule.limit - utilisation,
  };
}

function designStep(what: "tension" | "shear", factor: number, loadN: number): Step {
  const letter = what === "tension" ? "N" : "V";
  return {
    label: `Design ${what} on a top anchor`,
    formula: `${letter}Ed = γ · ${letter}`,
    substituted: `${factor} · ${shown(loadN)}`,
    result: factor * loadN,
    unit: "N",
    source: "EN 1990 (factor is an input)",
  };
}
