// Holds a survey against a region's rule pack. The answer is guidance with a caution, never a
// certificate: local codes, the authority and the maker's instructions prevail.
import type { Decision, Finding, Verdict } from "./finding.ts";
import { VERDICTS } from "./finding.ts";
import { judgeBarrier } from "./judge-barrier.ts";
import { judgeClearance } from "./judge-clearance.ts";
import { judgeAggregateEnergy, judgeUnitEnergy } from "./judge-energy.ts";
import { judgeAmbient, judgeForbiddenRoom } from "./judge-place.ts";
import { judgeSeparation } from "./judge-separation.ts";
import { judgeWorkingSpace } from "./judge-working-space.ts";
import type { Rule, RulePack } from "./rule-pack.ts";
import type { Survey } from "./survey.ts";
import { indexSurvey, type SurveyIndex } from "./survey-index.ts";

export interface Judgement {
  findings: Finding[];
  summary: { counts: Record<Verdict, number>; sentence: string };
  caution: string;
}

export const SITING_CAUTION =
  "Guidance, not a certificate. Local codes, the authority having jurisdiction, the " +
  "equipment's listing and the maker's instructions prevail; a licensed person " +
  "decides. Check every figure against the edition adopted where the job is.";

/**
 * Judges every rule of the pack that applies under the survey's editions.
 * @param survey a parsed `survey/1` document; lengths in mm, energies in kWh.
 * @param pack a parsed `siting-rule-pack/1`.
 * @returns findings, worst first (breaks, needs-survey, meets, not-applicable).
 */
export function judgeSiting(survey: Survey, pack: RulePack): Judgement {
  const index = indexSurvey(survey);
  const chosen = chosenEditions(survey, pack);
  const findings = [
    ...packFindings(survey, pack),
    ...pack.rules
      .filter((rule) => !rule.editions || rule.editions.some((id) => chosen.includes(id)))
      .flatMap((rule) => judgeRule(index, rule).map((one) => toFinding(rule, chosen, one))),
  ];
  findings.sort((a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict));
  return { findings, summary: summarise(findings), caution: `${SITING_CAUTION} ${pack.caution}` };
}

function chosenEditions(survey: Survey, pack: RulePack): string[] {
  return pack.editions
    .filter(({ id, family, isDefault }) => {
      const wanted = survey.editions[family];
      const held = pack.editions.some((one) => one.family === family && one.id === wanted);
      return held ? id === wanted : isDefault;
    })
    .map(({ id }) => id);
}

/** A survey judged by the wrong pack or edition must not read as a clean bill. */
function packFindings(survey: Survey, pack: RulePack): Finding[] {
  const problems = Object.entries(survey.editions)
    .filter(([family, id]) => !pack.editions.some((e) => e.family === family && e.id === id))
    .map(
      ([family, id]) =>
        `The survey asks for edition ${id} of ${family}, which ${pack.title} does not ` +
        "hold: the default was used.",
    );
  if (survey.region !== pack.region) {
    problems.unshift(
      `The survey is for region ${survey.region}; ${pack.title} is for ${pack.region}.`,
    );
  }
  return problems.map((sentence) => ({
    ruleId: "rule-pack",
    title: "Rule pack fits the survey",
    verdict: "needs-survey",
    between: [],
    sentence,
    source: pack.title,
    edition: "none",
    certainty: "own rule",
  }));
}

function judgeRule(index: SurveyIndex, rule: Rule): Decision[] {
  const decisions = decide(index, rule);
  if (decisions.length > 0) return decisions;
  const sentence = "Nothing in the survey falls under this rule.";
  return [{ verdict: "not-applicable", between: [], sentence }];
}

function decide(index: SurveyIndex, rule: Rule): Decision[] {
  switch (rule.kind) {
    case "clearance":
      return judgeClearance(index, rule);
    case "forbidden-room":
      return judgeForbiddenRoom(index, rule);
    case "aggregate-energy":
      return judgeAggregateEnergy(index, rule);
    case "unit-energy":
      return judgeUnitEnergy(index, rule);
    case "unit-separation":
      return judgeSeparation(index, rule);
    case "working-space":
      return judgeWorkingSpace(index, rule);
    case "barrier":
      return judgeBarrier(index, rule);
    case "ambient":
      return judgeAmbient(index, rule);
  }
}

function toFinding(rule: Rule, chosen: readonly string[], decision: Decision): Finding {
  const byEdition = Object.entries(rule.sourceByEdition ?? {}).find(([id]) => chosen.includes(id));
  const source = byEdition?.[1] ?? rule.source;
  return {
    ...decision,
    ruleId: rule.id,
    title: rule.title,
    source: `${source.document} ${source.clause}`,
    edition: source.edition,
    certainty: rule.certainty,
    ...(rule.caution === undefined ? {} : { caution: rule.caution }),
  };
}

function summarise(findings: readonly Finding[]): Judgement["summary"] {
  const count = (verdict: Verdict) => findings.filter((one) => one.verdict === verdict).length;
  const counts = {
    breaks: count("breaks"),
    "needs-survey": count("needs-survey"),
    meets: count("meets"),
    "not-applicable": count("not-applicable"),
  };
  const sentence = [
    counted(counts.breaks, "check breaks a rule", "checks break a rule"),
    counted(counts["needs-survey"], "needs more survey", "need more survey"),
    counted(counts.meets, "is met", "are met"),
    counted(counts["not-applicable"], "does not apply", "do not apply"),
  ].join(", ");
  return { counts, sentence: `${sentence}.` };
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}
