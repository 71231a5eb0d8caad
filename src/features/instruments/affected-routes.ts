import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { doubtSpans } from "../../domain/acceptance/instrument-doubt.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  type AffectedReading,
  AffectedReadingPage,
  AffectedReadingQuery,
  RetestJobs,
  RetestRequest,
} from "./affected-schemas.ts";
import { listAffected } from "./affected-store.ts";
import { openRetestJobs } from "./open-retest-jobs.ts";
import { factsOf } from "./standing.ts";
import { findInstrument } from "./store.ts";

const TAGS = ["Instruments"];

export const affectedReadingRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/instruments/:id/affected-readings", {
    schema: {
      operationId: "listAffectedReadings",
      summary: "List readings that what was found of the instrument casts doubt on",
      description:
        "A failed calibration or recheck: all since the last passed calibration. An overload or " +
        "a drop: all since, until a passed recheck or calibration.",
      tags: TAGS,
      params: IdParams,
      querystring: AffectedReadingQuery,
      response: { 200: AffectedReadingPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, replaced = null } = request.query;
      const { id } = request.params;
      const filter = { replaced, after: afterId(cursor) ?? null, most: limit + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const instrument = await findInstrument(tx, id);
        if (!instrument) throw notFound("instrument");
        return listAffected(tx, id, doubtSpans(factsOf(instrument)), filter);
      });
      const shown = rows as z.infer<typeof AffectedReading>[];
      return toPage(request, reply, shown, limit, (row) => row.id);
    },
  });

  app.post("/api/v1/instruments/:id/re-test-jobs", {
    schema: {
      operationId: "openRetestJobs",
      summary: "Open a re-test job at each affected site that has none",
      description: "Sent again, it opens nothing twice: 201 when it opened any, else 200.",
      tags: TAGS,
      params: IdParams,
      body: RetestRequest,
      response: {
        200: RetestJobs.describe("There was nothing to open"),
        201: RetestJobs,
        ...problems(401, 403, 404, 409, 422),
      },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const act = { personId: signedIn(request).personId, now: now() };
        const body = await openRetestJobs(tx, request.params.id, request.body ?? {}, act);
        return { status: body.items.some(({ opened }) => opened) ? 201 : 200, body };
      }),
  });
};
