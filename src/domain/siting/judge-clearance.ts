// Clearance from exits, openings, appliances and the like (AS/NZS 5139 4.2.2.2; PAS 63100 6.5;
// NFPA 855 ch. 15, IRC R328.4). What was not surveyed is never taken as met.
import { atLeast, type Decision, verdictOf } from "./finding.ts";
import { type Distance, measureDistance } from "./measure-clearance.ts";
import type { RuleOf } from "./rule-pack.ts";
import type { SurveyFeature, SurveyUnit } from "./survey.ts";
import { roomApplies, type SurveyIndex } from "./survey-index.ts";
import { plainWords } from "./vocabulary.ts";

type ClearanceRule = RuleOf<"clearance">;

/** One decision for each battery and named feature, and one for what was not surveyed. */
export function judgeClearance(index: SurveyIndex, rule: ClearanceRule): Decision[] {
  const decisions = index.batteries.flatMap((unit) => judgeUnit(index, rule, unit));
  return [...notSurveyed(index, rule), ...decisions];
}

function notSurveyed({ survey }: SurveyIndex, rule: ClearanceRule): Decision[] {
  const present = new Set([...survey.lookedFor, ...survey.features.map(({ kind }) => kind)]);
  const missing = rule.to.map((match) => match.kind).filter((kind) => !present.has(kind));
  if (missing.length === 0) return [];
  const list = missing.map(plainWords).join(", ");
  const sentence =
    `The survey does not say whether this was looked for: ${list}. Look, and draw it or ` +
    "say there is none.";
  return [{ verdict: "needs-survey", between: [], sentence }];
}

function judgeUnit(index: SurveyIndex, rule: ClearanceRule, unit: SurveyUnit): Decision[] {
  const room = index.roomOf(unit);
  const applies = roomApplies(room, rule.rooms);
  if (applies === "no") return [];
  if (applies === "unknown") {
    const sentence = `Say what kind of place ${room.name} is: the rule may apply to ${unit.name}.`;
    return [{ verdict: "needs-survey", between: [unit.id, room.id], sentence }];
  }
  return index.survey.features.flatMap((feature) => {
    const match = matches(feature, rule);
    if (match === "no") return [];
    const decision = judgePair(index, rule, unit, feature);
    return decision ? [match === "unknown" ? unlessMet(decision, feature) : decision] : [];
  });
}

function matches(feature: SurveyFeature, rule: ClearanceRule): "yes" | "no" | "unknown" {
  const match = rule.to.find(({ kind }) => kind === feature.kind);
  if (!match) return "no";
  if (!match.opensTo || !("opensTo" in feature)) return "yes";
  if (match.opensTo.includes(feature.opensTo)) return "yes";
  return feature.opensTo === "unknown" ? "unknown" : "no";
}

function unlessMet(decision: Decision, feature: SurveyFeature): Decision {
  if (decision.verdict !== "breaks") return decision;
  const question = `Say where ${feature.name} opens to: the rule may not apply.`;
  return { ...decision, verdict: "needs-survey", sentence: `${decision.sentence} ${question}` };
}

function judgePair(
  index: SurveyIndex,
  rule: ClearanceRule,
  unit: SurveyUnit,
  feature: SurveyFeature,
): Decision | undefined {
  const between = [unit.id, feature.id];
  const distance = measureDistance(index, unit, feature, rule.distance);
  if (distance === "elsewhere") return undefined;
  if (distance === "not-drawn") {
    const sentence =
      `${unit.name} and ${feature.name} are not on the same plane: measure between them ` +
      "by tape.";
    return { verdict: "needs-survey", between, sentence };
  }
  const measure = atLeast(distance.measuredMm, distance.requiredMm, "mm");
  const sentence = distanceSentence(index, unit.name, feature.name, distance);
  const decision: Decision = {
    ...measure,
    verdict: verdictOf(measure),
    between,
    direction: distance.direction,
    sentence,
  };
  return decision.verdict === "breaks" ? exempted(index, rule, feature, decision) : decision;
}

/** After its amendment, AS/NZS 5139 4.2.2.2 excuses an exit wider than 900 mm. */
function exempted(
  index: SurveyIndex,
  rule: ClearanceRule,
  feature: SurveyFeature,
  decision: Decision,
): Decision {
  const limitMm = rule.exemptExitWiderThanMm;
  if (limitMm === undefined || feature.kind !== "exit") return decision;
  const limit = index.length(limitMm);
  if (feature.clearWidthMm === undefined) {
    const sentence =
      `${decision.sentence} Measure the clear width of ${feature.name}: an exit wider ` +
      `than ${limit} is exempt.`;
    return { ...decision, verdict: "needs-survey", sentence };
  }
  if (feature.clearWidthMm <= limitMm) return decision;
  const width = index.length(feature.clearWidthMm);
  const sentence = `${feature.name} is ${width} wide, more than ${limit}: the exit is exempt.`;
  return { verdict: "not-applicable", between: decision.between, sentence };
}

/** "Window is 599 mm beside Pack; 600 mm is needed: 1 mm short." */
export function distanceSentence(
  index: SurveyIndex,
  unitName: string,
  otherName: string,
  distance: Distance,
): string {
  const { measuredMm, requiredMm, direction, how } = distance;
  const marginMm = measuredMm - requiredMm;
  const place = direction === "straight-line" ? "from" : direction;
  const way = how === "drawn" ? "" : ` (${how})`;
  const outcome =
    marginMm < 0 ? `${index.length(-marginMm)} short` : `${index.length(marginMm)} to spare`;
  return (
    `${otherName} is ${index.length(measuredMm)} ${place} ${unitName}${way}; ` +
    `${index.length(requiredMm)} is needed: ${outcome}.`
  );
}
