// A wall that backs onto a habitable room needs a non-combustible barrier behind the battery,
// reaching past it on both sides and above (AS/NZS 5139 4.2.4; extents from memory, unsure).
import { atLeast, type Decision } from "./finding.ts";
import { coveredShare, growWithin } from "./geometry.ts";
import type { RuleOf } from "./rule-pack.ts";
import type { SurveyUnit } from "./survey.ts";
import type { SurveyIndex } from "./survey-index.ts";
import { plainWords } from "./vocabulary.ts";

type BarrierRule = RuleOf<"barrier">;

/** One decision for each battery; the measure is the covered share of the needed area, in %. */
export function judgeBarrier(index: SurveyIndex, rule: BarrierRule): Decision[] {
  return index.batteries.map((unit) => judgeUnit(index, rule, unit));
}

function judgeUnit(index: SurveyIndex, rule: BarrierRule, unit: SurveyUnit): Decision {
  const plane = index.planeOf(unit);
  const between = [unit.id, plane.id];
  if (!plane.wall || plane.view === "plan") {
    const sentence =
      `Say what lies behind ${plane.name}, and draw it from the front: ${unit.name} may ` +
      "need a barrier.";
    return { verdict: "needs-survey", between, sentence };
  }
  const { backsOnto, combustible } = plane.wall;
  if (backsOnto === "unknown") {
    const sentence = `Say what lies behind ${plane.name}: ${unit.name} may need a barrier.`;
    return { verdict: "needs-survey", between, sentence };
  }
  if (!rule.whenWallBacksOnto.includes(backsOnto)) {
    const sentence =
      `${plane.name} backs onto a place of the kind ${plainWords(backsOnto)}: no barrier ` +
      "is asked for.";
    return { verdict: "not-applicable", between, sentence };
  }
  if (combustible === false) {
    const sentence = `${plane.name} is itself non-combustible.`;
    return { verdict: "meets", between, sentence };
  }
  return judgeCover(index, rule, unit, combustible === undefined);
}

function judgeCover(
  index: SurveyIndex,
  rule: BarrierRule,
  unit: SurveyUnit,
  wallUnknown: boolean,
): Decision {
  const plane = index.planeOf(unit);
  const between = [unit.id, plane.id];
  const needed = growWithin(unit, rule, plane);
  const sheets = index.survey.features.filter(
    (feature) =>
      feature.kind === "barrier" && feature.nonCombustible && feature.planeId === plane.id,
  );
  // Rounded down, so that a strip left bare never rounds up to covered.
  const percent = Math.floor(coveredShare(needed, sheets) * 1000 + 1e-6) / 10;
  const measure = atLeast(percent, 100, "%");
  const zone = { ...needed, planeId: plane.id };
  const from = index.length(needed.xMm);
  const to = index.length(needed.xMm + needed.widthMm);
  const top = index.length(needed.yMm + needed.heightMm);
  const area = `from ${from} to ${to} along ${plane.name} and up to ${top}`;
  if (percent < 100 && wallUnknown) {
    const sentence =
      `Say whether ${plane.name} is combustible: if it is, ${unit.name} needs a barrier ` +
      `${area}.`;
    return { verdict: "needs-survey", between, sentence, zone };
  }
  const covered = `covers ${percent} % of what is needed, ${area}`;
  const sentence = `The barrier behind ${unit.name} ${covered}.`;
  return { ...measure, verdict: percent < 100 ? "breaks" : "meets", between, sentence, zone };
}
