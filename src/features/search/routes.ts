import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { SearchQuery, SearchResult } from "./schemas.ts";
import { seek } from "./seek.ts";

export const searchRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/search", {
    schema: {
      operationId: "search",
      summary: "Find customers, sites, units, jobs, instruments and people",
      description:
        "Forgives slips of the hand, accents and capitals. Exact references and serial numbers " +
        "come first. Whoever may not list customers is led to their sites.",
      tags: ["Search"],
      querystring: SearchQuery,
      response: { 200: SearchResult, ...problems(401, 403, 422) },
    },
    handler: async (request) => {
      const { firmId, roles } = signedIn(request);
      const items = await inFirm(db, firmId, (tx) =>
        seek(tx, request.query.q, { roles, now: now() }),
      );
      return { items };
    },
  });
};
