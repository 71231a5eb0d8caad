import { inFirm } from "../../db/scope.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import { notFound } from "../../errors.ts";
import { readAndEditRoutes, removalRoute } from "../../web/by-id-routes.ts";
import type { Feature } from "../../web/feature.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { changeAbsence, enterAbsence, readAbsence } from "./enter-absence.ts";
import { Absence, AbsenceEdit, AbsencePage, AbsenceQuery, NewAbsence } from "./schemas.ts";
import { shown } from "./shown.ts";
import { listAbsences, removeAbsence } from "./store.ts";

const TAGS = ["Absences"];
const PATH = "/api/v1/absences";

export const absenceRoutes: Feature = async (app, { db }) => {
  app.get(PATH, {
    schema: {
      operationId: "listAbsences",
      summary: "List who is away, when and for what reason",
      tags: TAGS,
      querystring: AbsenceQuery,
      response: { 200: AbsencePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, personId, from, to } = request.query;
      const items = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const { timeZone } = await readFirm(tx);
        const rows = await listAbsences(tx, {
          ...{ personId, after: afterId(cursor), most: limit + 1 },
          ...(from ? { from: new Date(dayBounds(from, timeZone).start) } : {}),
          ...(to ? { to: new Date(dayBounds(to, timeZone).end) } : {}),
        });
        return rows.map((row) => shown(row, timeZone));
      });
      return toPage(request, reply, items, limit, (row) => row.id);
    },
  });

  app.post(PATH, {
    schema: {
      operationId: "enterAbsence",
      summary: "Enter that a person is away",
      description:
        "Refused while the person is booked then, with `conflicts`: what, id, name, visitId, " +
        "jobReference, startsAt, endsAt of each.",
      tags: TAGS,
      body: NewAbsence,
      response: { 201: Absence, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await enterAbsence(tx, request.body);
        const body = shown(row, (await readFirm(tx)).timeZone);
        return { location: `${PATH}/${row.id}`, version: row.version, body };
      }),
  });

  readAndEditRoutes(app, db, {
    ...{ path: PATH, tags: TAGS, body: AbsenceEdit, shown: Absence },
    read: { operationId: "readAbsence", summary: "Read one absence", row: readAbsence },
    edit: {
      operationId: "editAbsence",
      summary: "Change when a person is away, or why",
      canConflict: true,
      row: changeAbsence,
    },
    show: async (tx, row) => shown(row, (await readFirm(tx)).timeZone),
  });

  removalRoute(app, db, {
    ...{ path: PATH, tags: TAGS, operationId: "removeAbsence" },
    summary: "Take an absence back: the person is there after all",
    remove: async (tx, id) => {
      if (!(await removeAbsence(tx, id))) throw notFound("absence");
    },
  });
};
