import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findJob } from "../jobs/store.ts";
import { openKept } from "../photos/open-kept.ts";
import { attachmentNamed } from "./attachment.ts";
import { receiveDocument, removeDocument } from "./keep-document.ts";
import {
  DOCUMENT_BYTES_MOST,
  DOCUMENT_TYPES,
  DocumentName,
  DocumentParams,
  JobDocument,
  JobDocumentPage,
  JobDocumentQuery,
} from "./schemas.ts";
import { type DocumentRow, findDocument, listDocuments } from "./store.ts";

const TAGS = ["Documents"];

export const documentRoutes: Feature = async (app, { db, config, now }) => {
  app.addContentTypeParser(
    "application/pdf",
    { parseAs: "buffer", bodyLimit: DOCUMENT_BYTES_MOST },
    (_request, body, done) => done(null, body),
  );

  app.put("/api/v1/jobs/:id/documents/:sha256", {
    bodyLimit: DOCUMENT_BYTES_MOST,
    schema: {
      operationId: "putDocument",
      summary: "Send a document under its SHA-256",
      description:
        "The body is the file itself: PDF, JPEG or PNG, at most 20 MB. What it is, its bytes " +
        "say. Sending it again is harmless.",
      tags: TAGS,
      consumes: [...DOCUMENT_TYPES],
      params: DocumentParams,
      querystring: DocumentName,
      body: z.instanceof(Buffer).meta({ type: "string", format: "binary" }),
      response: {
        200: JobDocument.describe("It was there already"),
        201: JobDocument,
        ...problems(400, 401, 403, 404, 409, 413, 415, 422, 503),
      },
    },
    handler: async (request, reply) => {
      const { id: jobId, sha256 } = request.params;
      const incoming = { jobId, sha256, bytes: request.body, ...request.query };
      const session = signedIn(request);
      const { document, added } = await receiveDocument(
        ...([db, config, session, incoming, now()] as const),
      );
      return reply.code(added ? 201 : 200).send(shownDocument(document));
    },
  });

  app.get("/api/v1/jobs/:id/documents", {
    schema: {
      operationId: "listDocuments",
      summary: "List a job's documents",
      tags: TAGS,
      params: IdParams,
      querystring: JobDocumentQuery,
      response: { 200: JobDocumentPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findJob(tx, id))) throw notFound("job");
        return listDocuments(tx, id, { after: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shownDocument), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/jobs/:id/documents/:sha256", {
    schema: {
      operationId: "readDocument",
      summary: "Save a document",
      tags: TAGS,
      params: DocumentParams,
      response: {
        200: {
          description: "The file as it was sent",
          content: {
            "application/octet-stream": { schema: z.string().meta({ format: "binary" }) },
          },
        },
        ...problems(401, 403, 404, 409, 422),
      },
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      const { id, sha256 } = request.params;
      const row = await inFirm(db, firmId, (tx) => findDocument(tx, id, sha256));
      if (!row) throw notFound("document");
      const file = await openKept(config, { firmId, sha256 });
      return reply
        .type(row.mediaType)
        .header("content-disposition", attachmentNamed(row.name, row.mediaType))
        .header("cache-control", "private, no-cache")
        .header("content-length", row.bytes)
        .send(file as never);
    },
  });

  app.delete("/api/v1/jobs/:id/documents/:sha256", {
    schema: {
      operationId: "removeDocument",
      summary: "Take a document off a job",
      description: "The file stays under its hash, since the job's ledger names it.",
      tags: TAGS,
      params: DocumentParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id: jobId, sha256 } = request.params;
      await inFirm(db, firmId, (tx) => removeDocument(tx, { jobId, sha256 }, personId, now()));
      return reply.code(204).send();
    },
  });
};

export const shownDocument = ({
  person,
  receivedAt,
  firmId: _firm,
  removedAt: _removed,
  removedById: _remover,
  ...row
}: DocumentRow) => ({
  ...row,
  mediaType: row.mediaType as (typeof DOCUMENT_TYPES)[number],
  personName: person.name,
  receivedAt: receivedAt.toISOString(),
});
