import { inFirm } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { hoursOfSite, putHours } from "./put-hours.ts";
import { VisitHours, VisitHoursInput } from "./schemas.ts";

const TAGS = ["Sites"];

export const visitHoursRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/sites/:id/visit-hours", {
    schema: {
      operationId: "readVisitHours",
      summary: "Read when a site may be visited",
      tags: TAGS,
      params: IdParams,
      response: { 200: VisitHours, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { visitHours } = await inFirm(db, signedIn(request).firmId, (tx) =>
        hoursOfSite(tx, request.params.id),
      );
      sendETag(reply, visitHours.version);
      return visitHours;
    },
  });

  app.put("/api/v1/sites/:id/visit-hours", {
    schema: {
      operationId: "putVisitHours",
      summary: "Say when a site may be visited",
      description: "Update rounds keep to it. Visits that are booked already stay.",
      tags: TAGS,
      params: IdParams,
      body: VisitHoursInput,
      response: { 200: VisitHours, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        putHours(tx, request.params.id, version, request.body.hours),
      );
      sendETag(reply, row.version);
      return row;
    },
  });
};
