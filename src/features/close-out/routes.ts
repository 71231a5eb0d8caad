import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { closeOutJob, reopen } from "./close-job.ts";
import { evaluateJob } from "./evaluate.ts";
import { CloseOut, Evaluation, type Fact, Reopening, ReopeningRequest } from "./schemas.ts";
import { lastCloseOut } from "./store.ts";

const TAGS = ["Close-out"];

export const closeOutRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/jobs/:id/evaluation", {
    schema: {
      operationId: "evaluateJob",
      summary: "See what the gate would say now",
      tags: TAGS,
      params: IdParams,
      response: { 200: Evaluation, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const evaluated = await inFirm(db, signedIn(request).firmId, (tx) =>
        evaluateJob(tx, request.params.id, now(), { lock: false }),
      );
      if (!evaluated) throw notFound("job");
      return evaluated.result;
    },
  });

  app.post("/api/v1/jobs/:id/close-out", {
    schema: {
      operationId: "closeOutJob",
      summary: "Close the job, or learn everything that stands in the way",
      tags: TAGS,
      params: IdParams,
      response: { 201: CloseOut, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id } = request.params;
        const result = await closeOutJob(tx, id, signedIn(request).personId, now());
        if (!result.closed) {
          const { blockers, reference } = result;
          const things =
            blockers.length === 1 ? "1 thing stands" : `${blockers.length} things stand`;
          throw new Problem("close-out-blocked", `${reference}: ${things} in the way.`, {
            blockers,
          });
        }
        return { location: `/api/v1/jobs/${id}/close-out`, body: shown(result.closeOut) };
      }),
  });

  app.get("/api/v1/jobs/:id/close-out", {
    schema: {
      operationId: "readCloseOut",
      summary: "Read the job's last close-out",
      tags: TAGS,
      params: IdParams,
      response: { 200: CloseOut, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        lastCloseOut(tx, request.params.id),
      );
      if (!row) throw new Problem("not-found", "This job has not been closed out.");
      return shown(row);
    },
  });

  app.post("/api/v1/jobs/:id/reopening", {
    schema: {
      operationId: "reopenJob",
      summary: "Open a closed job again, on the record",
      tags: TAGS,
      params: IdParams,
      body: ReopeningRequest,
      response: { 201: Reopening, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const row = await reopen(tx, request.params.id, personId, request.body.reason, now());
        return { body: { ...row, reopenedAt: row.reopenedAt.toISOString() } };
      }),
  });
};

type Row = NonNullable<Awaited<ReturnType<typeof lastCloseOut>>>;

const shown = (row: Row) => ({
  ...row,
  closedAt: row.closedAt.toISOString(),
  facts: row.facts as unknown as z.infer<typeof Fact>[],
});
