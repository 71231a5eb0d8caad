import { inFirm } from "../../db/scope.ts";
import { readAndEditRoutes } from "../../web/by-id-routes.ts";
import type { Feature } from "../../web/feature.ts";
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

  readAndEditRoutes(app, db, {
    ...{ path: PATH, tags: TAGS, body: QualificationKindEdit, shown: QualificationKind },
    read: {
      operationId: "readQualificationKind",
      summary: "Read one kind of qualification",
      row: readKind,
    },
    edit: {
      operationId: "editQualificationKind",
      summary: "Rename a kind of qualification, warn earlier or later, or archive it",
      canConflict: true,
      row: (tx, id, version, change) => changeKind(tx, id, version, change, now()),
    },
    show: (_tx, row) => shownKind(row),
  });
};
