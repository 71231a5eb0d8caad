import { z } from "zod";
import { VERDICTS } from "../../domain/siting/finding.ts";
import { CERTAINTIES } from "../../domain/siting/rule-pack.ts";
import { surveySchema } from "../../domain/siting/survey.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { EXAMPLE_SURVEY } from "./example.ts";

const survey = surveySchema
  .describe("survey/1: rooms, planes, units and features with their places in mm")
  .meta({ examples: [EXAMPLE_SURVEY] });

export const SurveyBody = survey;

const version = z.coerce.number().int().min(1).max(1_000_000);
export const SurveyVersionParams = z.object({ id: z.guid(), number: version });

const head = {
  siteId: z.guid(),
  number: z.number().int().describe("version, counted from 1; also the ETag"),
  sha256: z.string().describe("over the canonical form (RFC 8785) of the document"),
  savedById: z.guid(),
  savedBy: z.string(),
  savedAt: z.iso.datetime({ offset: true }),
};

export const SurveyHead = z.object(head).meta({ id: "SurveyHead" });
export const SurveyPage = pageOf(SurveyHead);
export const SurveyQuery = z.strictObject(PAGE_QUERY);
export const SurveyShown = z
  .object({ ...head, document: z.record(z.string(), z.unknown()).describe("survey/1") })
  .meta({ id: "Survey" });

const packWish = {
  rulePack: z
    .string()
    .max(40)
    .optional()
    .describe("id of a rule pack; the one for the place where left out")
    .meta({ examples: ["uk-2026"] }),
};

export const SitingQuery = z
  .strictObject({
    ...packWish,
    rulePackVersion: version
      .optional()
      .describe("version of a pack of the firm's own; the current one where left out"),
    surveyVersion: version.optional().describe("the current one where left out"),
  })
  .refine((query) => query.rulePackVersion === undefined || query.rulePack !== undefined, {
    path: ["rulePackVersion"],
    message: "needs the rulePack that it is a version of",
  });

export const SitingTrial = z.strictObject({ survey, ...packWish });

const Finding = z
  .object({
    ruleId: z.string(),
    title: z.string(),
    verdict: z.enum(VERDICTS),
    between: z.array(z.string()).describe("ids of what it is about, in the survey"),
    sentence: z.string(),
    measured: z.number().optional(),
    required: z.number().optional(),
    margin: z.number().optional().describe("positive where the rule is met with room to spare"),
    unit: z.string().optional(),
    bound: z.enum(["minimum", "maximum"]).optional(),
    source: z.string().describe("document and clause"),
    edition: z.string(),
    certainty: z.enum(CERTAINTIES).describe("how sure we are of the figure"),
    caution: z.string().optional(),
    direction: z.enum(["beside", "above", "below", "straight-line"]).optional(),
  })
  .meta({ id: "SitingFinding" });

/** The worst come first, and `findingCount` counts them all. */
export const FINDINGS_MOST = 500;

const judgement = {
  rulePack: z.object({
    id: z.string(),
    title: z.string(),
    region: z.string(),
    version: z.number().int().nullable().describe("null for one that comes with the product"),
  }),
  findings: z
    .array(Finding)
    .describe(`the first ${FINDINGS_MOST}: what breaks a rule, what needs survey, what is met`),
  findingCount: z.number().int(),
  summary: z.object({
    counts: z.object({
      breaks: z.number().int(),
      "needs-survey": z.number().int(),
      meets: z.number().int(),
      "not-applicable": z.number().int(),
    }),
    sentence: z.string(),
  }),
  caution: z.string(),
};

export const SitingJudgement = z.object(judgement).meta({ id: "SitingJudgement" });
export const SiteJudgement = z
  .object({ siteId: z.guid(), surveyVersion: z.number().int(), ...judgement })
  .meta({ id: "SiteJudgement" });
