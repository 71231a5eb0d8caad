import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { beginsAtStart, sendFile } from "../../web/file-range.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { addExport } from "../exports/store.ts";
import { exportsOf } from "./background.ts";
import { beginExport } from "./begin-export.ts";
import { exportPath } from "./export-folder.ts";
import {
  EvidenceExport,
  EvidenceExportPage,
  EvidenceExportQuery,
  NewEvidenceExport,
} from "./schemas.ts";
import { shown } from "./shown.ts";
import { findEvidenceExport, listEvidenceExports } from "./store.ts";

const TAGS = ["Evidence"];

export const evidenceExportRoutes: Feature = async (app, context) => {
  const { db, config, now } = context;
  const background = exportsOf(app, context);

  app.post("/api/v1/evidence-exports", {
    schema: {
      operationId: "addEvidenceExport",
      summary: "Ask for the evidence of a unit, a site, a period or the whole fleet as one bag",
      description:
        "The bag is made in the background: read the export until it is ready, then fetch " +
        "…/bag, which takes ranges, so that a broken download goes on where it broke off. That " +
        "it was made is written on the ledger of each job in it. The file stays for seven days; " +
        "a bag of the same record has the same manifests whenever it is made.",
      tags: TAGS,
      body: NewEvidenceExport,
      response: { 201: EvidenceExport, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const made = await create(db, request, reply, async (tx) => {
        const row = await beginExport(tx, request.body.scope, personId, now());
        return { location: `/api/v1/evidence-exports/${row.id}`, body: shown(row) };
      });
      background.start(firmId, made.id);
      return made;
    },
  });

  app.get("/api/v1/evidence-exports", {
    schema: {
      operationId: "listEvidenceExports",
      summary: "List the exports of evidence, the latest first",
      tags: TAGS,
      querystring: EvidenceExportQuery,
      response: { 200: EvidenceExportPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const page = { before: afterId(cursor), most: limit + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listEvidenceExports(tx, page),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/evidence-exports/:id", {
    schema: {
      operationId: "readEvidenceExport",
      summary: "Read how far an export of evidence is",
      tags: TAGS,
      params: IdParams,
      response: { 200: EvidenceExport, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => shown(await require(signedIn(request).firmId, request.params.id)),
  });

  app.get("/api/v1/evidence-exports/:id/bag", {
    schema: {
      operationId: "readEvidenceExportBag",
      summary: "Fetch a finished bag, or the part of it that is still missing",
      tags: TAGS,
      params: IdParams,
      response: {
        200: {
          description: "The bag; 206 with the part that Range asks for (RFC 9110, 14)",
          content: { "application/zip": { schema: z.string().meta({ format: "binary" }) } },
        },
        ...problems(401, 403, 404, 409, 422),
      },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const row = await require(firmId, request.params.id);
      if (row.state !== "ready") throw new Problem("conflict", notReady(row.state));
      if (beginsAtStart(request)) {
        const taken = { list: "evidence", filter: { exportId: row.id }, personId };
        await inFirm(db, firmId, (tx) => addExport(tx, taken, now()));
      }
      const path = exportPath({ dataFolder: config.dataFolder, firmId, exportId: row.id });
      const file = { path, fileName: row.fileName, etag: `"${row.sha256}"` };
      if (await sendFile(request, reply, { ...file, mediaType: "application/zip" })) return reply;
      throw new Problem("evidence-damaged", "The file is gone from the data folder. Export again.");
    },
  });

  async function require(firmId: string, id: string) {
    const row = await inFirm(db, firmId, (tx) => findEvidenceExport(tx, id));
    if (!row) throw notFound("export");
    return row;
  }
};

const notReady = (state: string): string =>
  state === "gone"
    ? "Its file was removed after seven days. Export again; the same record gives the same bag."
    : state === "failed"
      ? "It failed; read the export for the reason."
      : "It is still being made. Read the export to see how far it is.";
