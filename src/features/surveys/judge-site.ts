import type { FirmTransaction } from "../../db/scope.ts";
import { type Judgement, judgeSiting } from "../../domain/siting/judge.ts";
import { parseSurvey, type Survey } from "../../domain/siting/survey.ts";
import { invalid } from "../../errors.ts";
import { type ChosenPack, findPack, packChoices, packForPlace } from "../rule-packs/choose-pack.ts";
import { findSite } from "../sites/store.ts";
import { readSurvey } from "./save-survey.ts";
import type { SurveyRow } from "./store.ts";

/** Which rules a survey is to be judged by; those of its place where none are named. */
export interface PackWish {
  rulePack?: string;
  rulePackVersion?: number;
}

export interface Judged extends ChosenPack {
  survey: Survey;
  judgement: Judgement;
}

export interface JudgedSite extends Judged {
  row: SurveyRow;
}

export async function judgeSite(
  tx: FirmTransaction,
  siteId: string,
  { surveyVersion, ...wish }: PackWish & { surveyVersion?: number },
): Promise<JudgedSite> {
  const row = await readSurvey(tx, siteId, surveyVersion);
  const site = await findSite(tx, siteId);
  const survey = surveyOf(row);
  const { region, country } = site ?? { region: survey.region };
  const place = { region, ...(country ? { country } : {}) };
  const chosen = (await choosePack(tx, wish, place)) ?? (await refuse(tx, wish, place, "/query"));
  return { row, survey, ...chosen, judgement: judgeSiting(survey, chosen.pack) };
}

/** Judges a survey that is not kept, by the rules for the region that it names itself. */
export async function trySurvey(
  tx: FirmTransaction,
  survey: Survey,
  wish: PackWish,
): Promise<Judged> {
  const place = { region: survey.region };
  const chosen = (await choosePack(tx, wish, place)) ?? (await refuse(tx, wish, place, "/body"));
  return { survey, ...chosen, judgement: judgeSiting(survey, chosen.pack) };
}

export function surveyOf(row: { document: unknown }): Survey {
  const parsed = parseSurvey(row.document);
  if (!parsed.ok) throw new Error(`a stored survey cannot be read: ${parsed.problem}`);
  return parsed.survey;
}

/** The pack named, or the one for the place; undefined where there is none. */
export async function choosePack(
  tx: FirmTransaction,
  { rulePack, rulePackVersion }: PackWish,
  place: { region: string; country?: string },
): Promise<ChosenPack | undefined> {
  return rulePack === undefined ? packForPlace(tx, place) : findPack(tx, rulePack, rulePackVersion);
}

/** Why there is no pack to judge by, with those that there are. */
export function noPackSentence(
  { rulePack }: PackWish,
  { region }: { region: string },
  choices: readonly { id: string }[],
): string {
  const ids = choices.slice(0, 10).map(({ id }) => id);
  return rulePack === undefined
    ? `No rule pack is for region ${region}. Name one (${ids.join(", ")}), or add your firm's ` +
        "own for that region."
    : `There is no rule pack ${rulePack}, or it has no such version. There are ${ids.join(", ")}.`;
}

async function refuse(
  tx: FirmTransaction,
  wish: PackWish,
  place: { region: string },
  where: "/query" | "/body",
): Promise<never> {
  throw invalid(`${where}/rulePack`, noPackSentence(wish, place, await packChoices(tx)));
}
