import { inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { makeKey, shownKey } from "./make-key.ts";
import { ApiKey, ApiKeyPage, ApiKeyQuery, MadeApiKey, NewApiKey } from "./schemas.ts";
import { findKey, listKeys, revokeKey } from "./store.ts";

const TAGS = ["Keys for programs"];

export const apiKeyRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/api-keys", {
    schema: {
      operationId: "listApiKeys",
      summary: "List keys for programs, the latest first",
      tags: TAGS,
      querystring: ApiKeyQuery,
      response: { 200: ApiKeyPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listKeys(tx, { after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shownKey), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/api-keys", {
    schema: {
      operationId: "makeApiKey",
      summary: "Make a key for a program; its text is shown once",
      description: "Not replayed by an Idempotency-Key: the text of a key is not stored anywhere.",
      tags: TAGS,
      body: NewApiKey,
      response: { 201: MadeApiKey, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { row, token } = await inFirm(db, firmId, (tx) =>
        makeKey(tx, request.body, personId, now()),
      );
      return reply.code(201).send({ ...shownKey(row), token });
    },
  });

  app.post("/api/v1/api-keys/:id/revocation", {
    schema: {
      operationId: "revokeApiKey",
      summary: "Revoke a key; within ten seconds it opens nothing",
      tags: TAGS,
      params: IdParams,
      response: { 201: ApiKey, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findKey(tx, id))) throw notFound("key");
        if (!(await revokeKey(tx, id, now()))) {
          throw new Problem("conflict", "This key was revoked before.");
        }
        return findKey(tx, id);
      });
      if (!row) throw notFound("key");
      return reply.code(201).send(shownKey(row));
    },
  });
};
