import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { DayQuery, DueListRecordPage, DueListRecordWithEntries, NoticePage } from "./schemas.ts";
import { findDueListRecord, listDueListRecords, listNotices } from "./store.ts";

const TAGS = ["Notices"];

export const noticeRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/notices", {
    schema: {
      operationId: "listNotices",
      summary: "See which notices were given to whom, and whether their mails went out",
      tags: TAGS,
      querystring: DayQuery,
      response: { 200: NoticePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, day } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listNotices(tx, { day, after: afterId(cursor), most: limit + 1 }),
      );
      const notices = rows.map(({ mail, ...row }) => ({
        ...row,
        day: dayOf(row.day),
        mailState: mail?.state ?? null,
      }));
      return toPage(request, reply, notices, limit, (row) => row.id);
    },
  });

  app.get("/api/v1/firmware/due-list-records", {
    schema: {
      operationId: "listDueListRecords",
      summary: "List the days on which the due list was recorded",
      tags: TAGS,
      querystring: DayQuery,
      response: { 200: DueListRecordPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, day } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listDueListRecords(tx, { day, after: afterId(cursor), most: limit + 1 }),
      );
      const records = rows.map((row) => ({ ...row, day: dayOf(row.day) }));
      return toPage(request, reply, records, limit, (row) => row.id);
    },
  });

  app.get("/api/v1/firmware/due-list-records/:id", {
    schema: {
      operationId: "readDueListRecord",
      summary: "Read the due list as it stood on one day",
      tags: TAGS,
      params: IdParams,
      response: { 200: DueListRecordWithEntries, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findDueListRecord(tx, request.params.id),
      );
      if (!row) throw notFound("record of the due list");
      const entries = row.entries as Record<string, unknown>[];
      return { ...row, day: dayOf(row.day), entries };
    },
  });
};

const dayOf = (date: Date): string => date.toISOString().slice(0, 10);
