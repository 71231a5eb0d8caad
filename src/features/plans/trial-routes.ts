import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { VersionParams } from "./schemas.ts";
import { shownSample } from "./shown-sample.ts";
import { PlanSample, PlanTrialResult, PlanTrialRun, SampleQuery } from "./trial-schemas.ts";
import { sampleOf, type TriedPlan, tryDocument } from "./try-plan.ts";

const TAGS = ["Plans"];

export const planTrialRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/plans/trial", {
    schema: {
      operationId: "tryPlan",
      summary: "Try a plan with made-up answers; nothing is stored",
      description:
        "Gives the verdict on every item and subject, what the gate would say, and which items " +
        "would not be asked and why. Begin from GET /api/v1/plans/:id/versions/:number/sample.",
      tags: TAGS,
      body: PlanTrialRun,
      response: { 200: PlanTrialResult, ...problems(400, 401, 403, 404, 413, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, async (tx) =>
        shownTrial(await tryDocument(tx, request.body, now())),
      ),
  });

  app.get("/api/v1/plans/:id/versions/:number/sample", {
    schema: {
      operationId: "samplePlanTrial",
      summary: "Facts and answers that pass, to begin a trial from",
      description:
        "Figures of product models are made up; where no passing answer can be worked out, it is " +
        "said.",
      tags: TAGS,
      params: VersionParams,
      querystring: SampleQuery,
      response: { 200: PlanSample, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id: planId, number } = request.params;
      const place = { planId, number };
      return inFirm(db, signedIn(request).firmId, async (tx) =>
        shownSample(await sampleOf(tx, place, request.query, now())),
      );
    },
  });
};

type Result = z.infer<typeof PlanTrialResult>;

function shownTrial(tried: TriedPlan): Result {
  if (!tried.publishable) {
    return { publishable: false, problems: tried.problems, warnings: [], items: [], gate: null };
  }
  const { warnings, items, gate } = tried;
  const { open, blockers, ruleVersion, stats } = gate;
  return {
    ...{ publishable: true, problems: [], warnings, items: items as unknown as Result["items"] },
    gate: { open, ruleVersion, stats: { ...stats }, blockers: blockers as unknown as Blockers },
  };
}

type Blockers = NonNullable<Result["gate"]>["blockers"];
