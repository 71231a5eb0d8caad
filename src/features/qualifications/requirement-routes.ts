import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { removalRoute } from "../../web/by-id-routes.ts";
import type { Feature } from "../../web/feature.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { askFor } from "./keep-qualification.ts";
import { listRequirements, removeRequirement } from "./requirement-store.ts";
import {
  NewRequirement,
  QualificationRequirement,
  QualificationRequirementPage,
  QualificationRequirementQuery,
} from "./schemas.ts";
import { shownRequirement } from "./shown.ts";

const TAGS = ["Qualifications"];
const PATH = "/api/v1/qualification-requirements";

export const qualificationRequirementRoutes: Feature = async (app, { db }) => {
  app.get(PATH, {
    schema: {
      operationId: "listQualificationRequirements",
      summary: "List which qualifications each kind of job asks for",
      tags: TAGS,
      querystring: QualificationRequirementQuery,
      response: { 200: QualificationRequirementPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, jobKind } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listRequirements(tx, { jobKind, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shownRequirement), limit, (row) => row.id);
    },
  });

  app.post(PATH, {
    schema: {
      operationId: "addQualificationRequirement",
      summary: "Ask for a qualification for a kind of job",
      description: "Visits that are booked already stay; the diary shows whom they lack.",
      tags: TAGS,
      body: NewRequirement,
      response: { 201: QualificationRequirement, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => ({
        body: shownRequirement(await askFor(tx, request.body)),
      })),
  });

  removalRoute(app, db, {
    ...{ path: PATH, tags: TAGS, operationId: "removeQualificationRequirement" },
    summary: "No longer ask for it",
    remove: async (tx, id) => {
      if (!(await removeRequirement(tx, id))) throw notFound("requirement");
    },
  });
};
