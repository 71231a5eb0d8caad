import { inFirm } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  changeRecurring,
  readRecurring,
  startRecurring,
  takeRecurringBack,
} from "./keep-recurring.ts";
import {
  NewRecurringInspection,
  RecurringInspection,
  RecurringInspectionEdit,
  RecurringInspectionPage,
  RecurringInspectionQuery,
} from "./schemas.ts";
import { shown } from "./shown.ts";
import { listRecurring } from "./store.ts";

const TAGS = ["Recurring inspections"];
const PATH = "/api/v1/recurring-inspections";

export const recurringInspectionRoutes: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: {
      operationId: "listRecurringInspections",
      summary: "List inspections that come round, with when each is due next",
      tags: TAGS,
      querystring: RecurringInspectionQuery,
      response: { 200: RecurringInspectionPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listRecurring(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post(PATH, {
    schema: {
      operationId: "startRecurringInspection",
      summary: "Have a site inspected every so many months",
      description: "Each turn's job is opened by itself when its horizon is reached.",
      tags: TAGS,
      body: NewRecurringInspection,
      response: { 201: RecurringInspection, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await startRecurring(tx, request.body, signedIn(request).personId);
        return { location: `${PATH}/${row.id}`, version: row.version, body: shown(row) };
      }),
  });

  app.get(`${PATH}/:id`, {
    schema: {
      operationId: "readRecurringInspection",
      summary: "Read one inspection that comes round",
      tags: TAGS,
      params: IdParams,
      response: { 200: RecurringInspection, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readRecurring(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch(`${PATH}/:id`, {
    schema: {
      operationId: "editRecurringInspection",
      summary: "Change an inspection that comes round, or end it",
      tags: TAGS,
      params: IdParams,
      body: RecurringInspectionEdit,
      response: { 200: RecurringInspection, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        changeRecurring(tx, request.params.id, version, request.body, now()),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.delete(`${PATH}/:id`, {
    schema: {
      operationId: "removeRecurringInspection",
      summary: "Take back an inspection that comes round and was entered by a slip",
      description: "Refused once it has opened a job: end it instead.",
      tags: TAGS,
      params: IdParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      await inFirm(db, signedIn(request).firmId, (tx) => takeRecurringBack(tx, request.params.id));
      return reply.code(204).send();
    },
  });
};
