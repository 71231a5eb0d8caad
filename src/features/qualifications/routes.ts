import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { readAndEditRoutes, removalRoute } from "../../web/by-id-routes.ts";
import type { Feature } from "../../web/feature.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
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

  readAndEditRoutes(app, db, {
    ...{ path: PATH, tags: TAGS, body: QualificationEdit, shown: Qualification },
    read: {
      operationId: "readQualification",
      summary: "Read one person's qualification",
      row: readQualification,
    },
    edit: {
      operationId: "editQualification",
      summary: "Mend a recorded qualification",
      canConflict: false,
      row: changeQualification,
    },
    show: async (tx, row) => shown(row, await todayOfFirm(tx, now())),
  });

  removalRoute(app, db, {
    ...{ path: PATH, tags: TAGS, operationId: "removeQualification" },
    summary: "Take back a qualification that was recorded by mistake",
    remove: async (tx, id) => {
      if (!(await removeQualification(tx, id))) throw notFound("qualification");
    },
  });
};
