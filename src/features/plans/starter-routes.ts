import { z } from "zod";
import { invalid, Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { afterText, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { StarterPage, StarterQuery, StoredDocument } from "./schemas.ts";
import { shownStarter } from "./shown.ts";
import { STARTER_PLANS } from "./starter-plans.ts";
import { findStarterIn, startersIn } from "./starters-in.ts";

const TAGS = ["Plans"];
const StarterParams = z.object({ name: z.string().max(60) });

export const starterPlanRoutes: Feature = async (app) => {
  app.get("/api/v1/starter-plans", {
    schema: {
      operationId: "listStarterPlans",
      summary: "List the plans that a firm can begin with",
      description:
        "In the language of who asks. POST /api/v1/plans with `starter` copies one into a draft.",
      tags: TAGS,
      querystring: StarterQuery,
      response: { 200: StarterPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const start = placeAfter(afterText(cursor));
      const starters = startersIn(request.language).slice(start, start + limit + 1);
      const rows = starters.map(shownStarter);
      return toPage(request, reply, rows, limit, (row) => row.name);
    },
  });

  app.get("/api/v1/starter-plans/:name", {
    schema: {
      operationId: "readStarterPlan",
      summary: "Take the document of a starter plan away",
      description: "Its figures are to be checked against the makers' instructions and local code.",
      tags: TAGS,
      params: StarterParams,
      response: { 200: StoredDocument, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const starter = findStarterIn(request.language, request.params.name);
      if (starter) return starter.document;
      throw new Problem("not-found", `There is no starter plan "${request.params.name}".`);
    },
  });
};

function placeAfter(name: string | undefined): number {
  if (name === undefined) return 0;
  const place = STARTER_PLANS.findIndex((starter) => starter.name === name);
  if (place < 0) throw invalid("/query/cursor", "is not a cursor of this list");
  return place + 1;
}
