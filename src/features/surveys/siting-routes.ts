import { inFirm } from "../../db/scope.ts";
import { drawSiting } from "../../domain/siting/draw.ts";
import { DRAWING, DRAWING_QUERY, drawnOr, sendDrawing, wantsDrawing } from "../../web/drawing.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { judgeSite, trySurvey } from "./judge-site.ts";
import { SiteJudgement, SitingJudgement, SitingQuery, SitingTrial } from "./schemas.ts";
import { shownJudgement } from "./shown.ts";

const TAGS = ["Siting"];
const GUIDANCE =
  "Guidance, never a certificate: local codes, the authority, the equipment's listing and the " +
  "maker's instructions prevail, and a licensed person decides.";

export const sitingRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/sites/:id/siting", {
    schema: {
      operationId: "readSiting",
      summary: "Hold a site's survey against a rule pack",
      description: GUIDANCE,
      tags: TAGS,
      params: IdParams,
      querystring: SitingQuery,
      response: { 200: SiteJudgement, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const judged = await inFirm(db, signedIn(request).firmId, (tx) =>
        judgeSite(tx, request.params.id, request.query),
      );
      const { siteId, number } = judged.row;
      return { siteId, surveyVersion: number, ...shownJudgement(judged) };
    },
  });

  app.get("/api/v1/sites/:id/siting.svg", {
    schema: {
      operationId: "drawSiting",
      summary: "Draw a site's survey to scale, with the distances that a rule pack asks for",
      description: GUIDANCE,
      tags: TAGS,
      params: IdParams,
      querystring: SitingQuery,
      response: { 200: DRAWING, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { survey, judgement } = await inFirm(db, signedIn(request).firmId, (tx) =>
        judgeSite(tx, request.params.id, request.query),
      );
      return sendDrawing(reply, drawSiting(survey, judgement.findings));
    },
  });

  app.post("/api/v1/siting", {
    schema: {
      operationId: "trySiting",
      summary: "Hold a survey against a rule pack without keeping it",
      description: GUIDANCE,
      tags: TAGS,
      querystring: DRAWING_QUERY,
      body: SitingTrial,
      response: {
        200: drawnOr(SitingJudgement, "The judgement, or the drawing"),
        ...problems(401, 403, 422),
      },
    },
    handler: async (request, reply) => {
      const { survey, ...wish } = request.body;
      const judged = await inFirm(db, signedIn(request).firmId, (tx) =>
        trySurvey(tx, survey, wish),
      );
      if (wantsDrawing(request, request.query)) {
        return sendDrawing(reply, drawSiting(judged.survey, judged.judgement.findings));
      }
      return shownJudgement(judged);
    },
  });
};
