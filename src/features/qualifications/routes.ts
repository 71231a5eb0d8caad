import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import {
  changeQualification,
  readQualification,
  recordQualification,
} from "./keep-qualification.ts";
import {
  NewQualification,
  Qualification,
  QualificationEdit,
  QualificationPage,
  QualificationQuery,
} from "./schemas.ts";
import { shown } from "./shown.ts";
import { listQualifications, removeQualification } from "./store.ts";

const TAGS = ["Qualifications"];
const PATH = "/api/v1/qualifications";

export const qualificationRoutes: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: {
      operationId: "listQualifications",
      summary: "List who holds which qualification, from when to when",
      tags: TAGS,
      querystring: QualificationQuery,
      response: { 200: QualificationPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const items = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const today = await todayOfFirm(tx, now());
        const asked = { ...filter, after: afterId(cursor), most: limit + 1 };
        return (await listQualifications(tx, asked)).map((row) => shown(row, today));
      });
      return toPage(request, reply, items, limit, (row) => row.id);
    },
  });

  app.post(PATH, {
    schema: {
      operationId: "recordQualification",
      summary: "Record that a person holds a qualification",
      tags: TAGS,
      body: NewQualification,
      response: { 201: Qualification, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await recordQualification(tx, request.body);
        const body = shown(row, await todayOfFirm(tx, now()));
        return { location: `${PATH}/${row.id}`, version: row.version, body };
      }),
  });

  app.get(`${PATH}/:id`, {
    schema: {
      operationId: "readQualification",
      summary: "Read one person's qualification",
      tags: TAGS,
      params: IdParams,
      response: { 200: Qualification, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) =>
      inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await readQualification(tx, request.params.id);
        sendETag(reply, row.version);
        return shown(row, await todayOfFirm(tx, now()));
      }),
  });

  app.patch(`${PATH}/:id`, {
    schema: {
      operationId: "editQualification",
      summary: "Mend a recorded qualification",
      tags: TAGS,
      params: IdParams,
      body: QualificationEdit,
      response: { 200: Qualification, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      return inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await changeQualification(tx, request.params.id, version, request.body);
        sendETag(reply, row.version);
        return shown(row, await todayOfFirm(tx, now()));
      });
    },
  });

  app.delete(`${PATH}/:id`, {
    schema: {
      operationId: "removeQualification",
      summary: "Take back a qualification that was recorded by mistake",
      tags: TAGS,
      params: IdParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await removeQualification(tx, id))) throw notFound("qualification");
      });
      return reply.code(204).send();
    },
  });
};
