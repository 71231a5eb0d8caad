import { Readable } from "node:stream";
import { z } from "zod";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { receiverOf } from "./ops-routes.ts";
import { OUTBOX_BYTES_MOST, OutboxSummary } from "./outbox-schemas.ts";
import { receiveOutbox } from "./receive-outbox.ts";

/** JSON Lines goes by either name; neither is registered. */
const JSON_LINES = ["application/jsonl", "application/x-ndjson"];

export const outboxRoutes: Feature = async (app, context) => {
  app.addContentTypeParser(JSON_LINES, (_request, payload, done) => done(null, payload));

  app.post("/api/v1/tablet/outbox-files", {
    bodyLimit: OUTBOX_BYTES_MOST,
    config: { slowUpload: true },
    schema: {
      operationId: "receiveOutboxFile",
      summary: "Bring in the outbox file that a tablet saved",
      description:
        "JSON Lines, at most 200 MB: operations in their order, and photos. Each is taken as if " +
        "the tablet had sent it, so the same file again, or the tablet's own sending later, is " +
        "harmless.",
      tags: ["Tablet"],
      consumes: JSON_LINES,
      body: z.instanceof(Readable).meta({ type: "string", format: "binary" }),
      response: { 200: OutboxSummary, ...problems(401, 403, 413, 415, 422, 503) },
    },
    handler: async (request) => {
      const receiver = { ...receiverOf(context, request), home: context.config };
      return receiveOutbox(receiver, request.body);
    },
  });
};
