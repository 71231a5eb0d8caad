import { inFirm } from "../../db/scope.ts";
import type { EffectVerdict } from "../../domain/corrective/follow-up.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { checkEffect } from "./check-effect.ts";
import { listEffectChecks } from "./effect-store.ts";
import { EffectCheck, EffectCheckList, NewEffectCheck } from "./schemas.ts";
import { findNonconformance } from "./store.ts";

const TAGS = ["Nonconformances"];

export const effectCheckRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/nonconformances/:id/effect-checks", {
    schema: {
      operationId: "listEffectChecks",
      summary: "List the looks at whether a correction works, the latest first",
      tags: TAGS,
      params: IdParams,
      response: { 200: EffectCheckList, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findNonconformance(tx, id))) throw notFound("nonconformance");
        return listEffectChecks(tx, id);
      });
      return { items: rows.map(shown), next: null };
    },
  });

  app.post("/api/v1/nonconformances/:id/effect-checks", {
    schema: {
      operationId: "addEffectCheck",
      summary: "Say whether the correction works",
      tags: TAGS,
      params: IdParams,
      body: NewEffectCheck,
      response: { 201: EffectCheck, ...problems(401, 403, 404, 409, 412, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const who = { personId, language: request.language, now: now() };
        return { body: shown(await checkEffect(tx, request.params.id, request.body, who)) };
      }),
  });
};

type Row = Awaited<ReturnType<typeof listEffectChecks>>[number];

const shown = ({ firmId: _firm, checkedBy, ...row }: Row) => ({
  ...row,
  verdict: row.verdict as EffectVerdict,
  checkedByName: checkedBy.name,
  checkedAt: row.checkedAt.toISOString(),
});
