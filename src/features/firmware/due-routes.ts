import { forReading } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { dueCounts, dueSites } from "./due-list.ts";
import { DueCountQuery, DueCounts, DuePage, DueQuery } from "./due-schemas.ts";
import { whatBlocks } from "./what-blocks.ts";

const TAGS = ["Firmware"];

export const firmwareDueRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/firmware/due", {
    schema: {
      operationId: "listFirmwareDue",
      summary: "List the sites with units below their target release",
      description:
        "Units whose level is unknown or cannot be ordered are listed apart, never guessed at.",
      tags: TAGS,
      querystring: DueQuery,
      response: { 200: DuePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const { firmId } = signedIn(request);
      const page = { after: afterId(cursor), most: limit + 1 };
      const sites = await dueSites(forReading(db), { firmId, filter, now: now() }, page);
      const blocks = await whatBlocks(db, firmId, sites.slice(0, limit));
      const shown = sites.map((site) => ({ ...site, blockedBy: blocks.get(site.id) ?? [] }));
      return toPage(request, reply, shown, limit, (site) => site.id);
    },
  });

  app.get("/api/v1/firmware/due/counts", {
    schema: {
      operationId: "countFirmwareDue",
      summary: "Count what is due",
      tags: TAGS,
      querystring: DueCountQuery,
      response: { 200: DueCounts, ...problems(401, 403, 422) },
    },
    handler: async (request) =>
      dueCounts(forReading(db), {
        firmId: signedIn(request).firmId,
        filter: request.query,
        now: now(),
      }),
  });
};
