import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { shownTelling, toldByOffice } from "./pending.ts";
import { listPending } from "./pending-store.ts";
import { VisitTellings } from "./schemas.ts";

const TAGS = ["Mail"];
const PENDING_MOST = 200;

export const visitMailRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/visit-tellings", {
    schema: {
      operationId: "listVisitTellings",
      summary: "See which visits their customers are about to be told of",
      description:
        "A visit that was booked, moved or cancelled is told once the firm's hold-back is over. " +
        "At most 200, the next one first.",
      tags: TAGS,
      response: { 200: VisitTellings, ...problems(401, 403) },
    },
    handler: async (request) => {
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listPending(tx, now(), PENDING_MOST),
      );
      return { items: rows.map(shownTelling) };
    },
  });

  app.delete("/api/v1/visit-tellings/:id", {
    schema: {
      operationId: "dropVisitTelling",
      summary: "Say that the customer knows already; no mail is written about this change",
      description: "The id is the visit's.",
      tags: TAGS,
      params: IdParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      await inFirm(db, signedIn(request).firmId, (tx) =>
        toldByOffice(tx, request.params.id, now()),
      );
      return reply.code(204).send();
    },
  });
};
