import { Readable } from "node:stream";
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { CSV_TYPE } from "../../web/csv.ts";
import type { Feature } from "../../web/feature.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { DueCountQuery, type DueFilter } from "../firmware/due-schemas.ts";
import { EXPORT_LISTS } from "./every-list.ts";
import { exportCsv, exportDueCsv, type Taker } from "./export-csv.ts";
import { SORTED } from "./lists.ts";
import { ExportPage, ExportQuery } from "./schemas.ts";
import { listExports } from "./store.ts";

const TAGS = ["Exports"];
const CSV = z.string().describe("RFC 4180");
const DESCRIPTION =
  "UTF-8 with a header row; cells that a spreadsheet would run as a formula have an apostrophe " +
  "in front. That the list was taken away stays on record.";
const RESPONSES = {
  200: { description: "UTF-8 with a header row", content: { "text/csv": { schema: CSV } } },
  ...problems(401, 403, 422),
};

export const exportRoutes: Feature = async (app, { db, now }) => {
  const takerOf = (request: FastifyRequest): Taker => {
    const { firmId, personId } = signedIn(request);
    return { db, firmId, personId, now: now() };
  };
  const send = (reply: FastifyReply, name: string, lines: AsyncGenerator<string>) =>
    reply
      .type(CSV_TYPE)
      .header("content-disposition", `attachment; filename="${name}.csv"`)
      .header("cache-control", "no-store")
      .send(Readable.from(lines)) as never;

  for (const list of EXPORT_LISTS) {
    const { name, operationId, summary, query } = list;
    app.get(`/api/v1/exports/${name}.csv`, {
      schema: {
        ...{ operationId, summary, description: DESCRIPTION, tags: TAGS },
        querystring: query,
        response: RESPONSES,
      },
      handler: async (request, reply) =>
        send(reply, name, await exportCsv(takerOf(request), list, request.query as object)),
    });
  }

  app.get("/api/v1/exports/due.csv", {
    schema: {
      operationId: "exportDueList",
      summary: "Take the due list away, a line a unit",
      ...{ description: DESCRIPTION, tags: TAGS },
      querystring: DueCountQuery.extend(SORTED),
      response: RESPONSES,
    },
    handler: async (request, reply) =>
      send(reply, "due", await exportDueCsv(takerOf(request), request.query as DueFilter)),
  });

  app.get("/api/v1/exports", {
    schema: {
      operationId: "listExports",
      summary: "See who took which list away, the latest first",
      tags: TAGS,
      querystring: ExportQuery,
      response: { 200: ExportPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, list } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listExports(tx, { list, before: afterId(cursor), most: limit + 1 }),
      );
      const exports = rows.map(({ person, filter, at, ...row }) => ({
        ...row,
        filter: filter as Record<string, unknown>,
        personName: person.name,
        at: at.toISOString(),
      }));
      return toPage(request, reply, exports, limit, (row) => row.id);
    },
  });
};
