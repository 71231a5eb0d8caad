import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { keepLooksByAuditors } from "./keep-looks.ts";
import { readLooks } from "./read-looks.ts";
import { LookPage, LookQuery } from "./schemas.ts";

export const auditLookRoutes: Feature = async (app, context) => {
  keepLooksByAuditors(app, context);

  app.get("/api/v1/audit-looks", {
    schema: {
      operationId: "listAuditLooks",
      summary: "See what auditors looked at, the latest first",
      description:
        "Once a day for a person and an address. Looks at what belongs to a job are on the " +
        "ledger of the job instead (`record.viewed`).",
      tags: ["Audits"],
      querystring: LookQuery,
      response: { 200: LookPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const ask = { ...filter, before: afterId(cursor), most: limit + 1 };
      const looks = await inFirm(context.db, signedIn(request).firmId, (tx) => readLooks(tx, ask));
      return toPage(request, reply, looks, limit, ({ id }) => id);
    },
  });
};
