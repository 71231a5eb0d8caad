import { inFirm } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { hoursOf, personHours, putPersonHours, putWorkingHours } from "./keep-hours.ts";
import { PersonWeek, PersonWeekInput, WorkingHours, WorkingHoursInput } from "./schemas.ts";

const TAGS = ["Working hours"];

export const workingHoursRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/working-hours", {
    schema: {
      operationId: "readWorkingHours",
      summary: "Read when the firm works, whose holidays it keeps, and who works other hours",
      tags: TAGS,
      response: { 200: WorkingHours, ...problems(401, 403) },
    },
    handler: async (request, reply) => {
      const hours = await inFirm(db, signedIn(request).firmId, async (tx) =>
        hoursOf(tx, await todayOfFirm(tx, now())),
      );
      sendETag(reply, hours.version);
      return hours;
    },
  });

  app.put("/api/v1/working-hours", {
    schema: {
      operationId: "putWorkingHours",
      summary: "Say when the firm works and whose holidays it keeps",
      description: "Visits that are booked already stay; the diary shows which lie outside.",
      tags: TAGS,
      body: WorkingHoursInput,
      response: { 200: WorkingHours, ...problems(401, 403, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const hours = await inFirm(db, signedIn(request).firmId, async (tx) =>
        putWorkingHours(tx, version, request.body, await todayOfFirm(tx, now())),
      );
      sendETag(reply, hours.version);
      return hours;
    },
  });

  app.get("/api/v1/people/:id/working-hours", {
    schema: {
      operationId: "readPersonHours",
      summary: "Read when a person works",
      tags: TAGS,
      params: IdParams,
      response: { 200: PersonWeek, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, async (tx) =>
        personHours(tx, request.params.id, await todayOfFirm(tx, now())),
      );
      sendETag(reply, row.version);
      return row;
    },
  });

  app.put("/api/v1/people/:id/working-hours", {
    schema: {
      operationId: "putPersonHours",
      summary: "Say when a person works, where that differs from the firm",
      tags: TAGS,
      params: IdParams,
      body: PersonWeekInput,
      response: { 200: PersonWeek, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) =>
        putPersonHours(tx, { id, version, today: await todayOfFirm(tx, now()) }, request.body),
      );
      sendETag(reply, row.version);
      return row;
    },
  });
};
