import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findSite } from "../sites/store.ts";
import { readSurvey, saveSurvey } from "./save-survey.ts";
import {
  SurveyBody,
  SurveyPage,
  SurveyQuery,
  SurveyShown,
  SurveyVersionParams,
} from "./schemas.ts";
import { shownHead, shownSurvey } from "./shown.ts";
import { listSurveys } from "./store.ts";

const TAGS = ["Siting"];

export const surveyRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/sites/:id/survey", {
    schema: {
      operationId: "readSurvey",
      summary: "Read a site's current survey",
      tags: TAGS,
      params: IdParams,
      response: { 200: SurveyShown, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readSurvey(tx, request.params.id),
      );
      sendETag(reply, row.number);
      return shownSurvey(row);
    },
  });

  app.put("/api/v1/sites/:id/survey", {
    schema: {
      operationId: "putSurvey",
      summary: "Save a site's survey as a new version; earlier ones stay",
      description:
        "The body is the document. If-Match is needed, and accepted, only where there is a " +
        "survey already. The current document again changes nothing.",
      tags: TAGS,
      params: IdParams,
      body: SurveyBody,
      response: {
        200: SurveyShown,
        201: SurveyShown,
        ...problems(401, 403, 404, 412, 422, 428),
      },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const version =
        request.headers["if-match"] === undefined ? undefined : matchedVersion(request);
      const wish = { siteId: request.params.id, survey: request.body, personId, version };
      const { row, isNew } = await inFirm(db, firmId, (tx) => saveSurvey(tx, wish, now()));
      sendETag(reply, row.number);
      return reply.code(isNew && row.number === 1 ? 201 : 200).send(shownSurvey(row));
    },
  });

  app.get("/api/v1/sites/:id/survey/versions", {
    schema: {
      operationId: "listSurveyVersions",
      summary: "List the versions of a site's survey, the first one first",
      tags: TAGS,
      params: IdParams,
      querystring: SurveyQuery,
      response: { 200: SurveyPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findSite(tx, id))) throw notFound("site");
        return listSurveys(tx, id, { after: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shownHead), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/sites/:id/survey/versions/:number", {
    schema: {
      operationId: "readSurveyVersion",
      summary: "Read one version of a site's survey",
      tags: TAGS,
      params: SurveyVersionParams,
      response: { 200: SurveyShown, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id, number } = request.params;
      const { firmId } = signedIn(request);
      return shownSurvey(await inFirm(db, firmId, (tx) => readSurvey(tx, id, number)));
    },
  });
};
