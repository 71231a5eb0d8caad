import { inFirm } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { changeKind, kindNameTaken, readKind } from "./keep-qualification.ts";
import { addKind, listKinds } from "./kind-store.ts";
import {
  NewQualificationKind,
  QualificationKind,
  QualificationKindEdit,
  QualificationKindPage,
  QualificationKindQuery,
} from "./schemas.ts";
import { shownKind } from "./shown.ts";

const TAGS = ["Qualifications"];
const PATH = "/api/v1/qualification-kinds";

export const qualificationKindRoutes: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: {
      operationId: "listQualificationKinds",
      summary: "List what people can be qualified for",
      tags: TAGS,
      querystring: QualificationKindQuery,
      response: { 200: QualificationKindPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, archived } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listKinds(tx, { archived, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shownKind), limit, (row) => row.id);
    },
  });

  app.post(PATH, {
    schema: {
      operationId: "addQualificationKind",
      summary: "Name a qualification that people can hold",
      tags: TAGS,
      body: NewQualificationKind,
      response: { 201: QualificationKind, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await addKind(tx, request.body);
        if (!row) throw kindNameTaken(request.body.name);
        return { location: `${PATH}/${row.id}`, version: row.version, body: shownKind(row) };
      }),
  });

  app.get(`${PATH}/:id`, {
    schema: {
      operationId: "readQualificationKind",
      summary: "Read one kind of qualification",
      tags: TAGS,
      params: IdParams,
      response: { 200: QualificationKind, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readKind(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shownKind(row);
    },
  });

  app.patch(`${PATH}/:id`, {
    schema: {
      operationId: "editQualificationKind",
      summary: "Rename a kind of qualification, warn earlier or later, or archive it",
      tags: TAGS,
      params: IdParams,
      body: QualificationKindEdit,
      response: { 200: QualificationKind, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        changeKind(tx, request.params.id, version, request.body, now()),
      );
      sendETag(reply, row.version);
      return shownKind(row);
    },
  });
};
