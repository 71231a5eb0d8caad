import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { compareVersions } from "./compare-versions.ts";
import { DiffQuery, PlanDiff } from "./diff-schemas.ts";
import { VersionParams } from "./schemas.ts";

export const planDiffRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/plans/:id/versions/:number/diff", {
    schema: {
      operationId: "comparePlanVersions",
      summary: "What a version of a plan changes, in sentences",
      description:
        "Each change says whether it is stricter or looser, where that can be told, and whom it " +
        "concerns.",
      tags: ["Plans"],
      params: VersionParams,
      querystring: DiffQuery,
      response: { 200: PlanDiff, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id: planId, number } = request.params;
      const { from } = request.query;
      return inFirm(db, signedIn(request).firmId, async (tx) => {
        const { plan: _plan, ...diff } = await compareVersions(tx, { planId, number, from });
        return {
          ...diff,
          changes: diff.changes.map((change) => ({ ...change, concerns: [...change.concerns] })),
        };
      });
    },
  });
};
