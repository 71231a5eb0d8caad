import type { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { type ClaimState, nextClaimStates } from "../../domain/warranty/claim-life.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { Claim, ClaimMove, ClaimPage, ClaimQuery, NewClaim } from "./claim-schemas.ts";
import { type ClaimRow, findClaim, listClaims } from "./claim-store.ts";
import { openClaim, stepClaim } from "./keep-claim.ts";

const TAGS = ["Warranty"];

export const warrantyClaimRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/warranty/claims", {
    schema: {
      operationId: "listWarrantyClaims",
      summary: "List claims, the latest first",
      tags: TAGS,
      querystring: ClaimQuery,
      response: { 200: ClaimPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const page = { ...filter, before: afterId(cursor), most: limit + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, (tx) => listClaims(tx, page));
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/warranty/claims", {
    schema: {
      operationId: "openWarrantyClaim",
      summary: "Draft a claim for a unit",
      tags: TAGS,
      body: NewClaim,
      response: { 201: Claim, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const by = { personId: signedIn(request).personId, now: now() };
        const row = await openClaim(tx, request.body, by);
        const location = `/api/v1/warranty/claims/${row.id}`;
        return { location, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/warranty/claims/:id", {
    schema: {
      operationId: "readWarrantyClaim",
      summary: "Read one claim",
      tags: TAGS,
      params: IdParams,
      response: { 200: Claim, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findClaim(tx, request.params.id),
      );
      if (!row) throw notFound("claim");
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/warranty/claims/:id", {
    schema: {
      operationId: "stepWarrantyClaim",
      summary: "Take a claim one step on: sent, accepted or refused, settled, withdrawn",
      tags: TAGS,
      params: IdParams,
      body: ClaimMove,
      response: { 200: Claim, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      const row = await inFirmAs(db, session, (tx) =>
        stepClaim(tx, request.params.id, version, request.body, by),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

const shown = (row: ClaimRow): z.infer<typeof Claim> => {
  const state = row.state as ClaimState;
  return {
    ...{ id: row.id, reference: row.reference, unitId: row.unitId, jobId: row.jobId },
    replacementUnitId: row.replacementUnitId,
    ...{ fault: row.fault, state, next: nextClaimStates(state) },
    ...{ makerReference: row.makerReference, note: row.note, version: row.version },
    sentAt: row.sentAt?.toISOString() ?? null,
    answeredAt: row.answeredAt?.toISOString() ?? null,
    endedAt: row.endedAt?.toISOString() ?? null,
    createdAt: row.createdAt.toISOString(),
  };
};
