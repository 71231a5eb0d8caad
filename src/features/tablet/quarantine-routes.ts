import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { dateTime } from "../../web/fields.ts";
import { afterId, PAGE_QUERY, pageOf, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { listQuarantine } from "./quarantine-store.ts";

const Quarantined = z
  .object({
    id: z.guid(),
    opId: z.guid(),
    deviceId: z.guid(),
    deviceSeq: z.number().int(),
    sentById: z.guid(),
    sentByName: z.string(),
    body: z.string().describe("as it came, in RFC 8785 form; its first 64 KB"),
    bytes: z.number().int().describe("length of the whole body"),
    sha256: z.string().describe("of the whole body"),
    why: z.string(),
    receivedAt: dateTime(),
  })
  .meta({ id: "Quarantined" });

export const quarantineRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/quarantine", {
    schema: {
      operationId: "listQuarantine",
      summary: "List what came under the id or the place of another operation",
      tags: ["Tablet"],
      querystring: z.strictObject(PAGE_QUERY),
      response: { 200: pageOf(Quarantined), ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listQuarantine(tx, { after: afterId(cursor), most: limit + 1 }),
      );
      const items = rows.map(({ sentBy, receivedAt, ...row }) => ({
        ...row,
        sentByName: sentBy.name,
        receivedAt: receivedAt.toISOString(),
      }));
      return toPage(request, reply, items, limit, ({ id }) => id);
    },
  });
};
