import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { requireImport } from "./import-state.ts";
import { kindOf } from "./kinds.ts";
import {
  IMPORT_KINDS,
  Import,
  ImportFields,
  ImportPage,
  ImportQuery,
  NewImport,
} from "./schemas.ts";
import { shown } from "./shown.ts";
import { addImport, listImports } from "./store.ts";

const TAGS = ["Imports"];
const FieldsQuery = z.strictObject({ kind: z.enum(IMPORT_KINDS) });

export const importRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/imports", {
    schema: {
      operationId: "listImports",
      summary: "List imports of CSV files, the latest first",
      tags: TAGS,
      querystring: ImportQuery,
      response: { 200: ImportPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listImports(tx, { ...filter, before: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/imports", {
    schema: {
      operationId: "addImport",
      summary: "Begin an import",
      description:
        "Then send the file (PUT …/file), let it be tried (POST …/dry-run), look at the bad " +
        "rows, " +
        "and confirm (POST …/confirmation). Nothing is changed before that.",
      tags: TAGS,
      body: NewImport,
      response: { 201: Import, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const row = await addImport(tx, { ...request.body, personId }, now());
        return { location: `/api/v1/imports/${row.id}`, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/imports/:id", {
    schema: {
      operationId: "readImport",
      summary: "Read how an import stands, and how far it is",
      tags: TAGS,
      params: IdParams,
      response: { 200: Import, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, async (tx) =>
        shown(await requireImport(tx, request.params.id)),
      ),
  });

  app.get("/api/v1/import-fields", {
    schema: {
      operationId: "listImportFields",
      summary: "List what the columns of a kind of file can hold",
      tags: TAGS,
      querystring: FieldsQuery,
      response: { 200: ImportFields, ...problems(401, 403, 422) },
    },
    handler: async (request) => {
      const { kind } = request.query;
      const fields = kindOf(kind).fields.map(({ name, cell, words, requirement }) => ({
        ...{ name, cell, words: [...words] },
        requirement: requirement ?? ("optional" as const),
      }));
      return { kind, fields };
    },
  });
};
