import { inFirm } from "../../db/scope.ts";
import { readAndEditRoutes, removalRoute } from "../../web/by-id-routes.ts";
import type { Feature } from "../../web/feature.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
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

  readAndEditRoutes(app, db, {
    ...{ path: PATH, tags: TAGS, body: RecurringInspectionEdit, shown: RecurringInspection },
    read: {
      operationId: "readRecurringInspection",
      summary: "Read one inspection that comes round",
      row: readRecurring,
    },
    edit: {
      operationId: "editRecurringInspection",
      summary: "Change an inspection that comes round, or end it",
      canConflict: false,
      row: (tx, id, version, change) => changeRecurring(tx, id, version, change, now()),
    },
    show: (_tx, row) => shown(row),
  });

  removalRoute(app, db, {
    ...{ path: PATH, tags: TAGS, operationId: "removeRecurringInspection", canConflict: true },
    summary: "Take back an inspection that comes round and was entered by a slip",
    description: "Refused once it has opened a job: end it instead.",
    remove: takeRecurringBack,
  });
};
