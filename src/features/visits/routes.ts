import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { bookVisit, callOff, moveVisit, readVisit, tellingConflicts } from "./book-visit.ts";
import { visitCautions } from "./cautions.ts";
import { afterStart, cursorOf } from "./cursor.ts";
import { NewVisit, VisitDetail, VisitEdit, VisitPage, VisitQuery } from "./schemas.ts";
import { shown } from "./shown.ts";
import { listVisits, type VisitRow } from "./store.ts";

const TAGS = ["Visits"];

export const visitRoutes: Feature = async (app, { db }) => {
  app.post("/api/v1/jobs/:id/visits", {
    schema: {
      operationId: "bookVisit",
      summary: "Book a crew, its people and instruments for a job",
      description:
        "Refused when the crew, one of its people or an instrument is booked already, or " +
        "somebody " +
        "is away, with `conflicts`: what, id, name, visitId and jobReference or absenceId, " +
        "startsAt, endsAt of each; and when the crew lacks a qualification on the day, with " +
        "`lacks`: day, kindName, personName, endedOn, startsOn of each.",
      tags: TAGS,
      params: IdParams,
      body: NewVisit,
      response: { 201: VisitDetail, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      tellingConflicts(db, signedIn(request).firmId, (wanted) =>
        create(db, request, reply, async (tx) => {
          const row = await bookVisit(tx, request.params.id, request.body, wanted);
          return {
            location: `/api/v1/visits/${row.id}`,
            version: row.version,
            body: await detailed(tx, row),
          };
        }),
      ),
  });

  app.get("/api/v1/visits", {
    schema: {
      operationId: "listVisits",
      summary: "List visits in the order of the diary",
      tags: TAGS,
      querystring: VisitQuery,
      response: { 200: VisitPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, day, ...filter } = request.query;
      if (day && (filter.from || filter.to)) {
        throw invalid("/query/day", "Give day, or from and to, and not both.");
      }
      const days = day ? { from: day, to: day } : {};
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listVisits(tx, { ...filter, ...days, after: afterStart(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, cursorOf);
    },
  });

  app.get("/api/v1/visits/:id", {
    schema: {
      operationId: "readVisit",
      summary: "Read one visit",
      tags: TAGS,
      params: IdParams,
      response: { 200: VisitDetail, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const visit = await inFirm(db, signedIn(request).firmId, async (tx) =>
        detailed(tx, await readVisit(tx, request.params.id)),
      );
      sendETag(reply, visit.version);
      return visit;
    },
  });

  app.patch("/api/v1/visits/:id", {
    schema: {
      operationId: "moveVisit",
      summary: "Move a visit to other hours, another crew or other instruments",
      tags: TAGS,
      params: IdParams,
      body: VisitEdit,
      response: { 200: VisitDetail, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { firmId } = signedIn(request);
      const { id } = request.params;
      const visit = await tellingConflicts(db, firmId, (wanted) =>
        inFirm(db, firmId, async (tx) =>
          detailed(tx, await moveVisit(tx, id, version, request.body, wanted)),
        ),
      );
      sendETag(reply, visit.version);
      return visit;
    },
  });

  app.post("/api/v1/visits/:id/cancellation", {
    schema: {
      operationId: "cancelVisit",
      summary: "Cancel a visit; who and what it held is free again",
      tags: TAGS,
      params: IdParams,
      response: { 201: VisitDetail, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await callOff(tx, request.params.id);
        return {
          location: `/api/v1/visits/${row.id}`,
          version: row.version,
          body: await detailed(tx, row),
        };
      }),
  });
};

const detailed = async (tx: FirmTransaction, row: VisitRow) => ({
  ...shown(row),
  cautions: await visitCautions(tx, row),
});
