// A survey of one wall, to be bent by each test into the case it is about.
import type { Finding } from "../../../src/domain/siting/finding.ts";
import { type Judgement, judgeSiting } from "../../../src/domain/siting/judge.ts";
import type { RulePack } from "../../../src/domain/siting/rule-pack.ts";
import { parseSurvey, type Survey, type SurveyInput } from "../../../src/domain/siting/survey.ts";
import { FEATURE_KINDS } from "../../../src/domain/siting/vocabulary.ts";

type UnitInput = SurveyInput["units"][number];
type FeatureInput = NonNullable<SurveyInput["features"]>[number];

export const place = (id: string, xMm: number, yMm: number, widthMm: number, heightMm: number) => ({
  id,
  name: id,
  planeId: "wall",
  xMm,
  yMm,
  widthMm,
  heightMm,
});

/** 600 wide, 1000 high, its left edge at 5000 and its top at 1200. */
export const pack = (more: Partial<UnitInput> = {}): UnitInput => ({
  ...place("pack", 5000, 200, 600, 1000),
  energyKWh: 10,
  ...more,
});

export const windowAt = (
  xMm: number,
  yMm: number,
  widthMm = 800,
  heightMm = 500,
): FeatureInput => ({
  kind: "window",
  ...place("window", xMm, yMm, widthMm, heightMm),
  opensTo: "habitable-room",
});

export function surveyInput(more: Partial<SurveyInput> = {}): SurveyInput {
  return {
    schema: "survey/1",
    title: "Test wall",
    region: "au-nz",
    lookedFor: [...FEATURE_KINDS],
    rooms: [{ id: "place", name: "place", kinds: ["attached-garage"] }],
    planes: [
      {
        id: "wall",
        name: "wall",
        roomId: "place",
        view: "elevation",
        widthMm: 12_000,
        heightMm: 6000,
        wall: { backsOnto: "other" },
      },
    ],
    units: [pack()],
    features: [],
    ...more,
  };
}

export function survey(more: Partial<SurveyInput> = {}): Survey {
  const parsed = parseSurvey(surveyInput(more));
  if (!parsed.ok) throw new Error(parsed.problem);
  return parsed.survey;
}

export function judge(rules: RulePack, more: Partial<SurveyInput> = {}): Judgement {
  return judgeSiting(survey({ region: rules.region, ...more }), rules);
}

export function findingsOf(judgement: Judgement, ruleId: string): Finding[] {
  return judgement.findings.filter((finding) => finding.ruleId === ruleId);
}

/** The only finding of a rule. */
export function findingOf(judgement: Judgement, ruleId: string): Finding {
  const [finding, ...others] = findingsOf(judgement, ruleId);
  if (!finding || others.length > 0) throw new Error(`${others.length + 1} findings of ${ruleId}`);
  return finding;
}
