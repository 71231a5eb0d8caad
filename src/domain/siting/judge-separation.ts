// Units stand apart so that one on fire does not take the next with it: 3 ft unless a fire test
// allows less (NFPA 855 15.5, IRC R328.3.1). A stack listed as one unit is one rectangle.
import { atLeast, type Decision, verdictOf } from "./finding.ts";
import { distanceSentence } from "./judge-clearance.ts";
import { measureDistance } from "./measure-clearance.ts";
import type { RuleOf } from "./rule-pack.ts";
import type { SurveyUnit } from "./survey.ts";
import type { SurveyIndex } from "./survey-index.ts";

type SeparationRule = RuleOf<"unit-separation">;

/** One decision for each pair of batteries that stand in the same place. */
export function judgeSeparation(index: SurveyIndex, rule: SeparationRule): Decision[] {
  return index.batteries.flatMap((first, at) =>
    index.batteries.slice(at + 1).flatMap((second) => judgePair(index, rule, first, second)),
  );
}

function judgePair(
  index: SurveyIndex,
  rule: SeparationRule,
  first: SurveyUnit,
  second: SurveyUnit,
): Decision[] {
  const between = [first.id, second.id];
  const [from, to] = index.tapeBetween(second.id, first.id) ? [second, first] : [first, second];
  const minimumMm = requiredMm(rule, first, second);
  const distance = measureDistance(index, from, to, { shape: "straight-line", minimumMm });
  if (distance === "elsewhere") return [];
  if (distance === "not-drawn") {
    const sentence =
      `${first.name} and ${second.name} are not on the same plane: measure between them ` +
      "by tape.";
    return [{ verdict: "needs-survey", between, sentence }];
  }
  const measure = atLeast(distance.measuredMm, distance.requiredMm, "mm");
  const sentence = distanceSentence(index, first.name, second.name, distance);
  const tested =
    minimumMm < rule.minimumMm
      ? ` A fire test is said to allow this (${first.testedSeparation?.evidence}; ` +
        `${second.testedSeparation?.evidence}): keep it with the record.`
      : "";
  return [
    {
      ...measure,
      verdict: verdictOf(measure),
      between,
      direction: distance.direction,
      sentence: sentence + tested,
    },
  ];
}

/** A test counts only where both units have one, and then the greater distance. */
function requiredMm(rule: SeparationRule, first: SurveyUnit, second: SurveyUnit): number {
  if (!rule.fireTestMayReduce || !first.testedSeparation || !second.testedSeparation) {
    return rule.minimumMm;
  }
  const testedMm = Math.max(first.testedSeparation.minimumMm, second.testedSeparation.minimumMm);
  return Math.min(rule.minimumMm, testedMm);
}
