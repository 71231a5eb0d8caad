import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { requireJob } from "../jobs/require-job.ts";
import { grantConcession, revoke } from "./grant-concession.ts";
import { concessionRegisterRoutes } from "./register-routes.ts";
import { Concession, ConcessionList, NewConcession } from "./schemas.ts";
import { listConcessions } from "./store.ts";

const TAGS = ["Concessions"];
const ConcessionParams = IdParams.extend({ concessionId: z.guid() });

export const concessionRoutes: Feature = async (app, context) => {
  const { db, now } = context;
  await concessionRegisterRoutes(app, context);
  app.post("/api/v1/jobs/:id/concessions", {
    schema: {
      operationId: "grantConcession",
      summary: "Release a hold point that does not conform",
      tags: TAGS,
      params: IdParams,
      body: NewConcession,
      response: { 201: Concession, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const grantedById = signedIn(request).personId;
        const { expiresOn, ...fields } = request.body;
        const grant = { jobId: request.params.id, grantedById, expiresOn, ...fields };
        return { body: shown(await grantConcession(tx, grant, now())) };
      }),
  });

  app.get("/api/v1/jobs/:id/concessions", {
    schema: {
      operationId: "listConcessions",
      summary: "List a job's concessions",
      tags: TAGS,
      params: IdParams,
      response: { 200: ConcessionList, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireJob(tx, request.params.id);
        return listConcessions(tx, request.params.id);
      });
      return { items: rows.map(shown), next: null };
    },
  });

  app.post("/api/v1/jobs/:id/concessions/:concessionId/revocation", {
    schema: {
      operationId: "revokeConcession",
      summary: "Take a concession back",
      tags: TAGS,
      params: ConcessionParams,
      response: { 201: Concession, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id, concessionId } = request.params;
        return {
          body: shown(await revoke(tx, id, concessionId, signedIn(request).personId, now())),
        };
      }),
  });
};

type Row = Awaited<ReturnType<typeof listConcessions>>[number];

const shown = (row: Row) => ({
  ...row,
  grantedAt: row.grantedAt.toISOString(),
  expiresOn: row.expiresOn?.toISOString().slice(0, 10) ?? null,
  revokedAt: row.revokedAt?.toISOString() ?? null,
});
