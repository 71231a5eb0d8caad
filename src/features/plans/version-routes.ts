import { inFirm } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  documentOf,
  publishVersion,
  readPlan,
  readVersion,
  replaceDocument,
  writeVersion,
} from "./keep-plan.ts";
import {
  NewPlanVersion,
  PlanDocumentBody,
  PlanVersion,
  PlanVersionPage,
  PlanVersionQuery,
  StoredDocument,
  VersionParams,
} from "./schemas.ts";
import { shownHead, shownVersion } from "./shown.ts";
import { listVersions, type PlanVersionRow } from "./store.ts";

const TAGS = ["Plans"];

export const planVersionRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/plans/:id/versions", {
    schema: {
      operationId: "listPlanVersions",
      summary: "List a plan's versions, the first one first",
      tags: TAGS,
      params: IdParams,
      querystring: PlanVersionQuery,
      response: { 200: PlanVersionPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const planId = request.params.id;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await readPlan(tx, planId);
        return listVersions(tx, planId, { after: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shownHead), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/plans/:id/versions", {
    schema: {
      operationId: "addPlanVersion",
      summary: "Start a new draft; a plan has one draft at a time",
      tags: TAGS,
      params: IdParams,
      body: NewPlanVersion.nullish(),
      response: { 201: PlanVersion, ...problems(401, 403, 404, 409, 413, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) =>
        made(await writeVersion(tx, request.params.id, request.body?.document)),
      ),
  });

  app.get("/api/v1/plans/:id/versions/:number", {
    schema: {
      operationId: "readPlanVersion",
      summary: "Read one version with its document and what is wrong with it",
      tags: TAGS,
      params: VersionParams,
      response: { 200: PlanVersion, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readVersion(tx, placeOf(request.params)),
      );
      sendETag(reply, row.version);
      return shownVersion(row);
    },
  });

  app.get("/api/v1/plans/:id/versions/:number/document", {
    schema: {
      operationId: "exportPlanDocument",
      summary: "Take the document away",
      description:
        "The order of members is not as it was written; the SHA-256 is over the canonical form.",
      tags: TAGS,
      params: VersionParams,
      response: { 200: StoredDocument, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readVersion(tx, placeOf(request.params)),
      );
      sendETag(reply, row.version);
      return documentOf(row);
    },
  });

  app.put("/api/v1/plans/:id/versions/:number/document", {
    schema: {
      operationId: "putPlanDocument",
      summary: "Replace a draft's document",
      description:
        "The body is the document itself. Faults do not refuse it; they come back as `problems`.",
      tags: TAGS,
      params: VersionParams,
      body: PlanDocumentBody,
      response: { 200: PlanVersion, ...problems(401, 403, 404, 409, 412, 413, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        replaceDocument(tx, placeOf(request.params), version, request.body),
      );
      sendETag(reply, row.version);
      return shownVersion(row);
    },
  });

  app.post("/api/v1/plans/:id/versions/:number/publication", {
    schema: {
      operationId: "publishPlanVersion",
      summary: "Publish a draft; from then on it does not change",
      description:
        "With If-Match only what was read is published. Refused with every fault and its place.",
      tags: TAGS,
      params: VersionParams,
      response: { 201: PlanVersion, ...problems(401, 403, 404, 409, 412, 422) },
    },
    handler: async (request, reply) => {
      const seen = request.headers["if-match"] === undefined ? undefined : matchedVersion(request);
      const { personId } = signedIn(request);
      return create(db, request, reply, async (tx) =>
        made(await publishVersion(tx, placeOf(request.params), seen, personId, now())),
      );
    },
  });
};

const placeOf = ({ id, number }: { id: string; number: number }) => ({ planId: id, number });

const made = (row: PlanVersionRow) => ({
  location: `/api/v1/plans/${row.planId}/versions/${row.number}`,
  version: row.version,
  body: shownVersion(row),
});
