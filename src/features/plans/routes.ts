import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { planJsonSchema } from "../../domain/plan/schema.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { withStarter } from "./copy-starter.ts";
import { readPlan, renamePlan, writePlan } from "./keep-plan.ts";
import {
  NewPlan,
  Plan,
  PlanEdit,
  PlanFindings,
  PlanPage,
  PlanQuery,
  PlanTrial,
} from "./schemas.ts";
import { findingsOn, shownPlan } from "./shown.ts";
import { listPlans } from "./store.ts";

const TAGS = ["Plans"];

export const planRoutes: Feature = async (app, { db }) => {
  const publishedSchema = planJsonSchema() as Record<string, unknown>;

  app.get("/api/v1/plans", {
    schema: {
      operationId: "listPlans",
      summary: "List inspection and test plans",
      tags: TAGS,
      querystring: PlanQuery,
      response: { 200: PlanPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listPlans(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shownPlan), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/plans", {
    schema: {
      operationId: "addPlan",
      summary: "Begin a plan with its first draft",
      description:
        "A draft may have faults; publishing it takes none. `starter` copies a plan to begin with.",
      tags: TAGS,
      body: NewPlan,
      response: { 201: Plan, ...problems(401, 403, 409, 413, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await writePlan(tx, withStarter(request.body, request.language));
        return { location: `/api/v1/plans/${row.id}`, version: row.version, body: shownPlan(row) };
      }),
  });

  app.get("/api/v1/plans/schema", {
    schema: {
      operationId: "publishedPlanSchema",
      summary: "JSON Schema (draft 2020-12) of a plan/1 document",
      description:
        "For editors. Publishing checks more: names, types of expressions, limits, circles.",
      tags: TAGS,
      response: { 200: z.record(z.string(), z.unknown()), ...problems(401) },
    },
    handler: async () => publishedSchema,
  });

  app.post("/api/v1/plans/check", {
    schema: {
      operationId: "checkPlan",
      summary: "Try a document without storing it",
      tags: TAGS,
      body: PlanTrial,
      response: { 200: PlanFindings, ...problems(401, 403, 413, 422) },
    },
    handler: async (request) => findingsOn(request.body.document),
  });

  app.get("/api/v1/plans/:id", {
    schema: {
      operationId: "readPlan",
      summary: "Read one plan",
      tags: TAGS,
      params: IdParams,
      response: { 200: Plan, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readPlan(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shownPlan(row);
    },
  });

  app.patch("/api/v1/plans/:id", {
    schema: {
      operationId: "editPlan",
      summary: "Change a plan's title",
      tags: TAGS,
      params: IdParams,
      body: PlanEdit,
      response: { 200: Plan, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        renamePlan(tx, request.params.id, version, request.body),
      );
      sendETag(reply, row.version);
      return shownPlan(row);
    },
  });
};
