import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { type JobDetail, readJobDetail } from "./detail-store.ts";
import { listJobs } from "./list-store.ts";
import { cancelJob, editJob, openJob } from "./open-job.ts";
import { Job, JobCancellation, JobEdit, JobPage, JobQuery, NewJob } from "./schemas.ts";
import { shownJob, shownSummary } from "./shown.ts";

const TAGS = ["Jobs"];

export const jobRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/jobs", {
    schema: {
      operationId: "listJobs",
      summary: "List jobs, newest first",
      tags: TAGS,
      querystring: JobQuery,
      response: { 200: JobPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listJobs(tx, { ...filter, after: afterId(cursor), most: limit + 1 }, now()),
      );
      return toPage(request, reply, rows.map(shownSummary), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/jobs", {
    schema: {
      operationId: "openJob",
      summary: "Open a job under a published plan",
      description: "The job keeps the plan version it starts with, whatever is published later.",
      tags: TAGS,
      body: NewJob,
      response: { 201: Job, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const id = await openJob(tx, request.body, signedIn(request).personId, now());
        const detail = await readDetail(tx, id);
        return {
          location: `/api/v1/jobs/${id}`,
          version: detail.job.version,
          body: shownJob(detail),
        };
      }),
  });

  app.get("/api/v1/jobs/:id", {
    schema: {
      operationId: "readJob",
      summary: "Read one job with its site, plan version, units and visits",
      tags: TAGS,
      params: IdParams,
      response: { 200: Job, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const detail = await inFirm(db, signedIn(request).firmId, (tx) =>
        readDetail(tx, request.params.id),
      );
      sendETag(reply, detail.job.version);
      return shownJob(detail);
    },
  });

  app.patch("/api/v1/jobs/:id", {
    schema: {
      operationId: "editJob",
      summary: "Change an open job's title",
      tags: TAGS,
      params: IdParams,
      body: JobEdit,
      response: { 200: Job, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const detail = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await editJob(tx, id, version, request.body.title);
        return readDetail(tx, id);
      });
      sendETag(reply, detail.job.version);
      return shownJob(detail);
    },
  });

  app.post("/api/v1/jobs/:id/cancellation", {
    schema: {
      operationId: "cancelJob",
      summary: "Cancel an open job, with its visits to come",
      tags: TAGS,
      params: IdParams,
      body: JobCancellation,
      response: { 201: Job, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id } = request.params;
        await cancelJob(tx, id, request.body.reason, signedIn(request).personId, now());
        const detail = await readDetail(tx, id);
        return {
          location: `/api/v1/jobs/${id}`,
          version: detail.job.version,
          body: shownJob(detail),
        };
      }),
  });
};

async function readDetail(tx: FirmTransaction, id: string): Promise<JobDetail> {
  const detail = await readJobDetail(tx, id);
  if (!detail) throw notFound("job");
  return detail;
}
