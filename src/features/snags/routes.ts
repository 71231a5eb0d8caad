import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findJob } from "../jobs/store.ts";
import { tellingConflicts } from "../visits/book-visit.ts";
import { followUpSnag } from "./follow-up-snag.ts";
import { changeSnag, raiseSnag, readSnag, type SnagRow } from "./keep-snag.ts";
import { mendSnag } from "./mend-snag.ts";
import {
  JobSnagQuery,
  NewFollowUp,
  NewMending,
  NewSnag,
  Snag,
  SnagEdit,
  SnagPage,
  SnagQuery,
} from "./schemas.ts";
import { listSnags } from "./store.ts";

const TAGS = ["Snags"];

export const snagRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/jobs/:id/snags", {
    schema: {
      operationId: "raiseSnag",
      summary: "Raise a snag on a job",
      description: "A closed job takes snags too: many are found after the hand-over.",
      tags: TAGS,
      params: IdParams,
      body: NewSnag,
      response: { 201: Snag, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const row = await raiseSnag(tx, request.params.id, request.body, personId, now());
        return { location: `/api/v1/snags/${row.id}`, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/jobs/:id/snags", {
    schema: {
      operationId: "listJobSnags",
      summary: "List a job's snags",
      tags: TAGS,
      params: IdParams,
      querystring: JobSnagQuery,
      response: { 200: SnagPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, state } = request.query;
      const jobId = request.params.id;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findJob(tx, jobId))) throw notFound("job");
        return listSnags(tx, { jobId, state, after: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/snags", {
    schema: {
      operationId: "listSnags",
      summary: "List snags across jobs",
      tags: TAGS,
      querystring: SnagQuery,
      response: { 200: SnagPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listSnags(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/snags/:id", {
    schema: {
      operationId: "readSnag",
      summary: "Read one snag",
      tags: TAGS,
      params: IdParams,
      response: { 200: Snag, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readSnag(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/snags/:id", {
    schema: {
      operationId: "editSnag",
      summary: "Change a snag that is not mended",
      tags: TAGS,
      params: IdParams,
      body: SnagEdit,
      response: { 200: Snag, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { firmId, personId } = signedIn(request);
      const row = await inFirm(db, firmId, (tx) =>
        changeSnag(tx, request.params.id, version, request.body, personId, now()),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.post("/api/v1/snags/:id/mending", {
    schema: {
      operationId: "mendSnag",
      summary: "Record that a snag is mended, with what shows it",
      tags: TAGS,
      params: IdParams,
      body: NewMending,
      response: { 201: Snag, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const row = await mendSnag(tx, request.params.id, request.body, personId, now());
        return { location: `/api/v1/snags/${row.id}`, version: row.version, body: shown(row) };
      }),
  });

  app.post("/api/v1/snags/:id/follow-up", {
    schema: {
      operationId: "followUpSnag",
      summary: "Book a visit for a snag, or open a job that mends it",
      tags: TAGS,
      params: IdParams,
      body: NewFollowUp,
      response: { 201: Snag, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id } = request.params;
      return tellingConflicts(db, firmId, (wanted) =>
        create(db, request, reply, async (tx) => {
          const row = await followUpSnag(tx, id, request.body, personId, now(), wanted);
          return { location: `/api/v1/snags/${id}`, version: row.version, body: shown(row) };
        }),
      );
    },
  });
};

function shown(snag: SnagRow) {
  const { job, raisedBy, mendedBy, raisedAt, mendedAt, followUpJob, followUpVisit, ...row } = snag;
  return {
    ...row,
    state: row.state as "open" | "mended",
    jobReference: job.reference,
    raisedByName: raisedBy.name,
    mendedByName: mendedBy?.name ?? null,
    raisedAt: raisedAt.toISOString(),
    mendedAt: mendedAt?.toISOString() ?? null,
  };
}
