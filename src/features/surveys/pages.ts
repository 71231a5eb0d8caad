import { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { drawSiting } from "../../domain/siting/draw.ts";
import { judgeSiting, SITING_CAUTION } from "../../domain/siting/judge.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { packChoices } from "../rule-packs/choose-pack.ts";
import { findSite } from "../sites/store.ts";
import { shownFindings } from "./finding-rows.ts";
import { choosePack, noPackSentence, surveyOf } from "./judge-site.ts";
import { currentSurvey, findSurvey, type SurveyRow } from "./store.ts";

const PageQuery = z.object({
  /** Empty where the form asks for the pack of the place. */
  rulePack: z.string().max(40).optional(),
  surveyVersion: z.coerce.number().int().min(1).max(1_000_000).optional(),
});
type Query = z.infer<typeof PageQuery>;
type Site = NonNullable<Awaited<ReturnType<typeof findSite>>>;

export const surveyPages: Feature = async (app, { db }) => {
  app.get("/sites/:id/survey", {
    schema: { operationId: "surveyPage", hide: true, params: IdParams, querystring: PageQuery },
    handler: async (request, reply) => {
      const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const site = await findSite(tx, request.params.id);
        if (!site) throw notFound("site");
        return { site, ...(await surveyData(tx, site, request.query)) };
      });
      const title = say(request.language, "siting.head", { reference: data.site.reference });
      return sendPage(request, reply, "site-survey", { title, caution: SITING_CAUTION, ...data });
    },
  });
};

async function surveyData(tx: FirmTransaction, site: Site, { rulePack, surveyVersion }: Query) {
  const current = await currentSurvey(tx, site.id);
  if (!current) return {};
  const row = surveyVersion ? await findSurvey(tx, site.id, surveyVersion) : current;
  if (!row) throw notFound("survey");
  const wish = rulePack ? { rulePack } : {};
  const chosen = await choosePack(tx, wish, site);
  const packs = (await packChoices(tx)).map((pack) => ({
    ...pack,
    isChosen: pack.id === chosen?.pack.id,
  }));
  const version = versionOf(row, current.number);
  const survey = surveyOf(row);
  const shown = { survey, version, packs };
  if (!chosen) {
    const noPack = noPackSentence(wish, site, packs);
    return { ...shown, noPack, drawing: drawSiting(survey, []) };
  }
  const judgement = judgeSiting(survey, chosen.pack);
  return {
    ...shown,
    pack: { ...chosen.pack, version: chosen.version },
    summary: judgement.summary,
    openCount: judgement.summary.counts["needs-survey"],
    caution: judgement.caution,
    ...shownFindings(survey, judgement.findings),
    drawing: drawSiting(survey, judgement.findings),
  };
}

function versionOf(row: SurveyRow, last: number) {
  return {
    number: row.number,
    last,
    before: row.number > 1 ? row.number - 1 : undefined,
    after: row.number < last ? row.number + 1 : undefined,
    savedBy: row.person.name,
    savedOn: row.createdAt.toISOString().slice(0, 10),
  };
}
