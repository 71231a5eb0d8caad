import type { FastifyRequest } from "fastify";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { effectCheckRoutes } from "./effect-routes.ts";
import { followUp, openNonconformance } from "./follow-up.ts";
import { listOf } from "./list-of.ts";
import { tellFailedUpdate } from "./note-failed-updates.ts";
import {
  FailedUpdate,
  NewNonconformance,
  Nonconformance,
  NonconformanceEdit,
  NonconformancePage,
  NonconformanceQuery,
  type STATES,
} from "./schemas.ts";
import { findNonconformance } from "./store.ts";

const TAGS = ["Nonconformances"];

export const nonconformanceRoutes: Feature = async (app, context) => {
  const { db, now } = context;
  await effectCheckRoutes(app, context);
  const whoOf = (request: FastifyRequest) => ({
    ...{ personId: signedIn(request).personId, language: request.language, now: now() },
  });

  app.get("/api/v1/nonconformances", {
    schema: {
      operationId: "listNonconformances",
      summary: "List what did not conform, the latest first",
      tags: TAGS,
      querystring: NonconformanceQuery,
      response: { 200: NonconformancePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listOf(tx, filter, now(), { before: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, ({ id }) => id);
    },
  });

  app.post("/api/v1/nonconformances", {
    schema: {
      operationId: "openNonconformance",
      summary: "Open a nonconformance",
      tags: TAGS,
      body: NewNonconformance,
      response: { 201: Nonconformance, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await openNonconformance(tx, request.body, whoOf(request));
        if (!row) throw new Problem("conflict", "This failed update is on record already.");
        return made(row);
      }),
  });

  app.get("/api/v1/nonconformances/:id", {
    schema: {
      operationId: "readNonconformance",
      summary: "Read one nonconformance",
      tags: TAGS,
      params: IdParams,
      response: { 200: Nonconformance, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) => read(tx, request.params.id));
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/nonconformances/:id", {
    schema: {
      operationId: "editNonconformance",
      summary: "Note cause, containment, correction and effect, or close it",
      tags: TAGS,
      params: IdParams,
      body: NonconformanceEdit,
      response: { 200: Nonconformance, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        followUp(tx, { id, version }, request.body, whoOf(request)),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.post("/api/v1/jobs/:id/failed-updates", {
    schema: {
      operationId: "tellFailedUpdate",
      summary: "Say that a firmware update failed on a unit of this job",
      description: "Opens a nonconformance; the ring is held where its failure rate says so.",
      tags: TAGS,
      params: IdParams,
      body: FailedUpdate,
      response: { 201: Nonconformance, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await tellFailedUpdate(tx, request.params.id, request.body, whoOf(request));
        if (!row) throw new Problem("conflict", "This failed update is on record already.");
        return made(row);
      }),
  });
};

type Row = NonNullable<Awaited<ReturnType<typeof findNonconformance>>>;

async function read(tx: FirmTransaction, id: string): Promise<Row> {
  const row = await findNonconformance(tx, id);
  if (!row) throw notFound("nonconformance");
  return row;
}

const made = (row: Row) => ({
  location: `/api/v1/nonconformances/${row.id}`,
  version: row.version,
  body: shown(row),
});

const shown = ({ firmId: _firm, ...row }: Row) => ({
  ...row,
  state: row.state as (typeof STATES)[number],
  dueOn: row.dueOn?.toISOString().slice(0, 10) ?? null,
  effectDueOn: row.effectDueOn?.toISOString().slice(0, 10) ?? null,
  openedAt: row.openedAt.toISOString(),
  closedAt: row.closedAt?.toISOString() ?? null,
});
