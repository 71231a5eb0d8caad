import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { attachEvidence, detachEvidence, EVIDENCE_MOST, evidenceOf } from "./claim-evidence.ts";
import { ClaimEvidence, ClaimEvidenceList, NewClaimEvidence } from "./claim-schemas.ts";
import { readClaim } from "./keep-claim.ts";

const TAGS = ["Warranty"];

export const claimEvidenceRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/warranty/claims/:id/evidence", {
    schema: {
      operationId: "listClaimEvidence",
      summary: `List what goes with a claim, at most ${EVIDENCE_MOST} pieces`,
      tags: TAGS,
      params: IdParams,
      response: { 200: ClaimEvidenceList, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, async (tx) => {
        const { id } = await readClaim(tx, request.params.id);
        return { items: await evidenceOf(tx, id) };
      }),
  });

  app.post("/api/v1/warranty/claims/:id/evidence", {
    schema: {
      operationId: "attachClaimEvidence",
      summary: "Attach a bag of evidence or a job's document to a claim",
      tags: TAGS,
      params: IdParams,
      body: NewClaimEvidence,
      response: { 201: ClaimEvidence, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const by = { personId: signedIn(request).personId, now: now() };
        return { body: await attachEvidence(tx, request.params.id, request.body, by) };
      }),
  });

  app.delete("/api/v1/warranty/claims/:id/evidence/:evidenceId", {
    schema: {
      operationId: "detachClaimEvidence",
      summary: "Take a piece of evidence off a claim that has not ended",
      tags: TAGS,
      params: IdParams.extend({ evidenceId: z.guid() }),
      response: { 204: noBody(), ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { id, evidenceId } = request.params;
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      await inFirmAs(db, session, (tx) => detachEvidence(tx, id, evidenceId, by));
      return reply.code(204).send();
    },
  });
};
