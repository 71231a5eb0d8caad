import { randomBytes } from "node:crypto";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { keepLook, keepSample, readSample } from "./keep-sample.ts";
import {
  AuditLook,
  AuditSamplePage,
  AuditSampleQuery,
  AuditSampleWhole,
  LookParams,
  NewLook,
  NewSample,
} from "./sample-schemas.ts";
import { shownLook, shownSample, shownWhole } from "./sample-shown.ts";
import { countSamples, findSample, listSamples } from "./sample-store.ts";

const TAGS = ["Audits"];
const SEED_BYTES = 6;

export const newSeed = (): string => randomBytes(SEED_BYTES).toString("hex");

export const auditRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/audits", {
    schema: {
      operationId: "listAuditSamples",
      summary: "List the audit samples that were kept, the latest first",
      tags: TAGS,
      querystring: AuditSampleQuery,
      response: { 200: AuditSamplePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { rows, counts } = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const found = await listSamples(tx, { before: afterId(cursor), most: limit + 1 });
        const ids = found.map(({ id }) => id);
        return { rows: found, counts: await countSamples(tx, ids) };
      });
      const items = rows.map((row) => shownSample(row, counts.get(row.id)));
      return toPage(request, reply, items, limit, ({ id }) => id);
    },
  });

  app.post("/api/v1/audits", {
    schema: {
      operationId: "keepAuditSample",
      summary: "Draw an audit sample and keep it as it is drawn now",
      description:
        "Jobs that close later change nothing of it. The same draw by the same person is kept " +
        "once. Where the auditor has a scope, the lot is what they may see.",
      tags: TAGS,
      body: NewSample,
      response: { 201: AuditSampleWhole, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const keeper = { personId: signedIn(request).personId, now: now() };
        const { seed = newSeed(), ...asked } = request.body;
        const id = await keepSample(tx, { ...asked, seed }, keeper);
        return { location: `/api/v1/audits/${id}`, body: shownWhole(await readSample(tx, id)) };
      }),
  });

  app.get("/api/v1/audits/:id", {
    schema: {
      operationId: "readAuditSample",
      summary: "Read an audit sample: its jobs in the order drawn, looks and findings",
      tags: TAGS,
      params: IdParams,
      response: { 200: AuditSampleWhole, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, async (tx) =>
        shownWhole(await readSample(tx, request.params.id)),
      ),
  });

  app.get("/api/v1/audits/:id/lot", {
    schema: {
      operationId: "readAuditLot",
      summary: "Read the lot that a sample was drawn from, a reference a line",
      description:
        "The sample is the lowest SHA-256 of `seed:reference`, in their order: " +
        '`while read -r n; do printf \'%s:%s\' "$SEED" "$n" | sha256sum | sed "s/-$/$n/"; ' +
        'done < lot | LC_ALL=C sort | head -n "$SIZE"`.',
      tags: TAGS,
      params: IdParams,
      response: {
        200: { description: "References", content: { "text/plain": { schema: z.string() } } },
        ...problems(401, 403, 404, 422),
      },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, (tx) => findSample(tx, id));
      if (!row) throw notFound("audit sample");
      return reply.type("text/plain; charset=utf-8").send(`${row.lot.join("\n")}\n`);
    },
  });

  app.post("/api/v1/audits/:id/jobs/:jobId/looks", {
    schema: {
      operationId: "addAuditLook",
      summary: "Note that a drawn job was looked at, with what was seen",
      description:
        "Looks are added and never changed. What does not conform is a nonconformance with this " +
        "`auditSampleId` and `jobId`; it counts as a look.",
      tags: TAGS,
      params: LookParams,
      body: NewLook,
      response: { 201: AuditLook, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id: sampleId, jobId } = request.params;
        const keeper = { personId: signedIn(request).personId, now: now() };
        const look = { sampleId, jobId, remark: request.body.remark };
        return { body: shownLook(await keepLook(tx, look, keeper)) };
      }),
  });
};
