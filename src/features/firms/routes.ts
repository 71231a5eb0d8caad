import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { editFirmFacts, readFirmFacts, readMark, writeMark } from "./branding-store.ts";
import { markFrom } from "./keep-mark.ts";
import { Firm, FirmEdit, MARK_BYTES_MOST } from "./schemas.ts";

const TAGS = ["Firm"];
const PICTURES = ["image/jpeg", "image/png", "image/webp"];
const BINARY = z.instanceof(Buffer).meta({ type: "string", format: "binary" });

export const firmRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/firm", {
    schema: {
      operationId: "readFirm",
      summary: "Read your firm with what stands on its documents",
      tags: TAGS,
      response: { 200: Firm, ...problems(401, 403) },
    },
    handler: async (request, reply) => {
      const firm = await inFirm(db, signedIn(request).firmId, readFirmFacts);
      sendETag(reply, firm.version);
      return firm;
    },
  });

  app.patch("/api/v1/firm", {
    schema: {
      operationId: "editFirm",
      summary: "Change your firm",
      tags: TAGS,
      body: FirmEdit,
      response: { 200: Firm, ...problems(401, 403, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const firm = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await editFirmFacts(tx, version, request.body))) throw editedMeanwhile();
        return readFirmFacts(tx);
      });
      sendETag(reply, firm.version);
      return firm;
    },
  });

  app.get("/api/v1/firm/mark", {
    schema: {
      operationId: "readFirmMark",
      summary: "The firm's mark",
      tags: TAGS,
      response: {
        200: { description: "A PNG", content: { "image/png": { schema: z.string() } } },
        ...problems(401, 403, 404),
      },
    },
    handler: async (request, reply) => {
      const mark = await inFirm(db, signedIn(request).firmId, readMark);
      if (!mark) throw notFound("mark");
      return reply
        .type("image/png")
        .header("cache-control", "private, no-cache")
        .send(mark as never);
    },
  });

  // The bodies are read as for photos.
  app.put("/api/v1/firm/mark", {
    bodyLimit: MARK_BYTES_MOST,
    schema: {
      operationId: "putFirmMark",
      summary: "Keep a mark for your documents",
      description: "JPEG, PNG or WebP of at most 2 MB; it is drawn anew as a small PNG.",
      tags: TAGS,
      consumes: PICTURES,
      body: BINARY,
      response: { 204: noBody(), ...problems(400, 401, 403, 413, 415, 422, 503) },
    },
    handler: async (request, reply) => {
      const mark = await markFrom(request.body as Buffer);
      await inFirm(db, signedIn(request).firmId, (tx) => writeMark(tx, mark));
      return reply.code(204).send();
    },
  });

  app.delete("/api/v1/firm/mark", {
    schema: {
      operationId: "removeFirmMark",
      summary: "Use no mark any more",
      tags: TAGS,
      response: { 204: noBody(), ...problems(401, 403) },
    },
    handler: async (request, reply) => {
      await inFirm(db, signedIn(request).firmId, (tx) => writeMark(tx, null));
      return reply.code(204).send();
    },
  });
};
