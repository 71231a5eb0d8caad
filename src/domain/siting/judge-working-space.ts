// Working space in front of equipment (NEC 110.26(A), IRC E3405): width, height, and a depth that
// grows with the voltage to ground and with what faces the equipment.
import { atLeast, type Decision, verdictOf } from "./finding.ts";
import type { RuleOf } from "./rule-pack.ts";
import type { SurveyUnit } from "./survey.ts";
import { roomApplies, type SurveyIndex } from "./survey-index.ts";

type WorkingSpaceRule = RuleOf<"working-space">;
type Needed = { ok: true; requiredMm: number } | { ok: false; problem: string };

/** Three decisions for each unit: width, height and depth of the space in front of it. */
export function judgeWorkingSpace(index: SurveyIndex, rule: WorkingSpaceRule): Decision[] {
  return index.survey.units
    .filter((unit) => roomApplies(index.roomOf(unit), rule.rooms) !== "no")
    .flatMap((unit) => {
      const space = unit.workingSpace ?? {};
      // Width and height: the printed figure or the equipment's own, whichever is greater.
      const widthMm = Math.max(rule.widthMm, unit.widthMm);
      const drawnUpright = index.planeOf(unit).view === "elevation";
      const heightMm = Math.max(rule.heightMm, drawnUpright ? unit.heightMm : 0);
      return [
        judgeOne(index, unit, "wide", space.widthMm, { ok: true, requiredMm: widthMm }),
        judgeOne(index, unit, "high", space.heightMm, { ok: true, requiredMm: heightMm }),
        judgeOne(index, unit, "deep", space.depthMm, requiredDepth(rule, unit)),
      ];
    });
}

function judgeOne(
  index: SurveyIndex,
  unit: SurveyUnit,
  word: "wide" | "high" | "deep",
  measuredMm: number | undefined,
  needed: Needed,
): Decision {
  const between = [unit.id];
  if (!needed.ok) return { verdict: "needs-survey", between, sentence: needed.problem };
  const required = index.length(needed.requiredMm);
  if (measuredMm === undefined) {
    const space = `the space in front of ${unit.name}`;
    const sentence = `Measure how ${word} ${space} is; ${required} is needed.`;
    return { verdict: "needs-survey", between, sentence };
  }
  const measure = atLeast(measuredMm, needed.requiredMm, "mm");
  const sentence =
    `The space in front of ${unit.name} is ${index.length(measuredMm)} ${word}; ` +
    `${required} is needed.`;
  return { ...measure, verdict: verdictOf(measure), between, sentence };
}

function requiredDepth(rule: WorkingSpaceRule, unit: SurveyUnit): Needed {
  const { voltageToGroundV } = unit;
  const condition = unit.workingSpace?.condition;
  if (voltageToGroundV === undefined || condition === undefined) {
    const problem =
      `Give the voltage to ground of ${unit.name} and what faces it (condition 1, 2 or ` +
      "3): the depth depends on both.";
    return { ok: false, problem };
  }
  const row = rule.depths.find(({ upToV }) => voltageToGroundV <= upToV);
  if (!row) {
    const problem =
      `${unit.name} is at ${voltageToGroundV} V to ground, beyond this table: look the ` +
      "depth up in the code.";
    return { ok: false, problem };
  }
  const byCondition = { 1: row.condition1Mm, 2: row.condition2Mm, 3: row.condition3Mm };
  return { ok: true, requiredMm: byCondition[condition] };
}
