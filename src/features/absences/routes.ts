import { inFirm } from "../../db/scope.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { noBody, problems } from "../../web/responses.ts";
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

  app.get(`${PATH}/:id`, {
    schema: {
      operationId: "readAbsence",
      summary: "Read one absence",
      tags: TAGS,
      params: IdParams,
      response: { 200: Absence, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) =>
      inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await readAbsence(tx, request.params.id);
        sendETag(reply, row.version);
        return shown(row, (await readFirm(tx)).timeZone);
      }),
  });

  app.patch(`${PATH}/:id`, {
    schema: {
      operationId: "editAbsence",
      summary: "Change when a person is away, or why",
      tags: TAGS,
      params: IdParams,
      body: AbsenceEdit,
      response: { 200: Absence, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      return inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await changeAbsence(tx, request.params.id, version, request.body);
        sendETag(reply, row.version);
        return shown(row, (await readFirm(tx)).timeZone);
      });
    },
  });

  app.delete(`${PATH}/:id`, {
    schema: {
      operationId: "removeAbsence",
      summary: "Take an absence back: the person is there after all",
      tags: TAGS,
      params: IdParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await removeAbsence(tx, id))) throw notFound("absence");
      });
      return reply.code(204).send();
    },
  });
};
