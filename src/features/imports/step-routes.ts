import { Readable } from "node:stream";
import type { FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { invalid, Problem } from "../../errors.ts";
import { CSV_TYPE } from "../../web/csv.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { importsOf } from "./background.ts";
import { cancelImport, confirmImport } from "./decide-import.ts";
import { type Place, requireImport } from "./import-state.ts";
import { receiveFile } from "./receive-file.ts";
import { rejectsOf } from "./rejects.ts";
import { listBadRows } from "./rows-store.ts";
import {
  BadRowPage,
  BadRowQuery,
  Confirmation,
  DryRun,
  FILE_BYTES_MOST,
  Import,
} from "./schemas.ts";
import { shown } from "./shown.ts";
import { startDryRun } from "./start-dry-run.ts";

const TAGS = ["Imports"];
const TYPES = ["text/csv", "text/tab-separated-values", "application/octet-stream"];
const CSV = z.string().describe("RFC 4180");

export const importStepRoutes: Feature = async (app, context) => {
  const { db, config, now } = context;
  const background = importsOf(app, context);
  const placeOf = (firmId: string): Place => ({ db, dataFolder: config.dataFolder, firmId });

  await app.register(async (within) => {
    // Handed on as it comes in: the file goes to disk, never whole into memory.
    for (const type of TYPES) {
      within.addContentTypeParser(type, (_request, payload, done) => done(null, payload));
    }
    within.put("/api/v1/imports/:id/file", {
      bodyLimit: FILE_BYTES_MOST,
      config: { slowUpload: true },
      schema: {
        operationId: "putImportFile",
        summary: "Send the file of an import",
        description:
          "CSV with a header row (RFC 4180), parted by commas, semicolons or tabs, in UTF-8, " +
          "UTF-16 or Windows-1252: which of them is found out. At most 64 MB.",
        tags: TAGS,
        consumes: TYPES,
        params: IdParams,
        response: { 200: Import, ...problems(400, 401, 403, 404, 409, 413, 415, 422) },
      },
      handler: async (request) => {
        const body = request.body as AsyncIterable<Uint8Array> | undefined;
        if (!body) throw invalid("/body", "Send the file as the body.");
        refuseTooLong(request);
        const { id } = request.params as { id: string };
        return shown(await receiveFile(placeOf(signedIn(request).firmId), id, body));
      },
    });
  });

  app.post("/api/v1/imports/:id/dry-run", {
    schema: {
      operationId: "tryImport",
      summary: "Try an import: read and judge every row, change nothing",
      description: "Runs in the background; the import's state goes from checking to checked.",
      tags: TAGS,
      params: IdParams,
      body: DryRun,
      response: { 202: Import, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      const { id } = request.params;
      const row = await startDryRun(placeOf(firmId), id, request.body, now());
      background.start(firmId, row.id);
      return reply.code(202).send(shown(row));
    },
  });

  app.post("/api/v1/imports/:id/confirmation", {
    schema: {
      operationId: "confirmImport",
      summary: "Import what the dry run found good: all of it or nothing",
      description: "Runs in the background, in one transaction.",
      tags: TAGS,
      params: IdParams,
      body: Confirmation,
      response: { 202: Import, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const body = await create(db, request, reply, async (tx) => {
        const row = await confirmImport(tx, id, request.body.badRows);
        return { status: 202, body: shown(row) };
      });
      background.start(signedIn(request).firmId, id);
      return body;
    },
  });

  app.post("/api/v1/imports/:id/cancellation", {
    schema: {
      operationId: "cancelImport",
      summary: "Give an import up; what was under way leaves nothing behind",
      tags: TAGS,
      params: IdParams,
      response: { 201: Import, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => ({
        body: shown(await cancelImport(tx, request.params.id, now())),
      })),
  });

  app.get("/api/v1/imports/:id/bad-rows", {
    schema: {
      operationId: "listBadRows",
      summary: "List the rows that cannot be imported, each with line and reason",
      tags: TAGS,
      params: IdParams,
      querystring: BadRowQuery,
      response: { 200: BadRowPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireImport(tx, id);
        return listBadRows(tx, id, { after: afterLine(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows, limit, (row) => String(row.line));
    },
  });

  app.get("/api/v1/imports/:id/rejects.csv", {
    schema: {
      operationId: "readRejects",
      summary: "Take the bad rows away, as they came, with line and reason",
      tags: TAGS,
      params: IdParams,
      response: {
        200: { description: "UTF-8 with a header row", content: { "text/csv": { schema: CSV } } },
        ...problems(401, 403, 404, 422),
      },
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      const row = await inFirm(db, firmId, (tx) => requireImport(tx, request.params.id));
      return reply
        .type(CSV_TYPE)
        .header("content-disposition", `attachment; filename="rejects-${row.kind}.csv"`)
        .send(Readable.from(rejectsOf(db, firmId, row)) as never);
    },
  });
};

/** Told before the file is sent, where its sender says how long it is. */
export function refuseTooLong({ headers }: FastifyRequest): void {
  if (Number(headers["content-length"] ?? 0) <= FILE_BYTES_MOST) return;
  const most = `${FILE_BYTES_MOST / 1024 / 1024} MB`;
  throw new Problem("body-too-large", `The file has more than ${most}. Send it in parts.`);
}

/** Lines are below two thousand million; a cursor says the last one. */
export function afterLine(cursor: string | undefined): number {
  if (cursor === undefined) return 0;
  const text = Buffer.from(cursor, "base64url").toString("utf8");
  if (!/^\d{1,9}$/.test(text)) throw invalid("/query/cursor", "is not a cursor of this list");
  return Number(text);
}
