import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { applyHeld, dismissHeld } from "./decide-held.ts";
import { Dismissal, HeldOperation, HeldPage, HeldParams, HeldQuery } from "./held-schemas.ts";
import { shownHeld } from "./held-shown.ts";
import { listHeld } from "./held-store.ts";

const TAGS = ["Tablet"];

export const heldRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/held-operations", {
    schema: {
      operationId: "listHeldOperations",
      summary: "List what tablets kept that has no effect yet, or had none when it came",
      tags: TAGS,
      querystring: HeldQuery,
      response: { 200: HeldPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listHeld(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shownHeld), limit, ({ opId }) => opId);
    },
  });

  app.post("/api/v1/held-operations/:opId/application", {
    schema: {
      operationId: "applyHeldOperation",
      summary: "Give a held operation its effect, now that nothing stands in the way",
      description:
        "It becomes what it was meant to be: an answer with the time at which it was taken, by " +
        "the person who took it. What still stands in the way is the refusal; it stays held.",
      tags: TAGS,
      params: HeldParams,
      response: { 201: HeldOperation, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const row = await applyHeld(tx, request.params.opId, personId, now());
        return { body: shownHeld(row) };
      }),
  });

  app.post("/api/v1/held-operations/:opId/dismissal", {
    schema: {
      operationId: "dismissHeldOperation",
      summary: "Put a held operation aside for good, with the reason",
      tags: TAGS,
      params: HeldParams,
      body: Dismissal,
      response: { 201: HeldOperation, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const { reason } = request.body;
        const row = await dismissHeld(tx, request.params.opId, personId, reason, now());
        return { body: shownHeld(row) };
      }),
  });
};
