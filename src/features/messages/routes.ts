import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterText, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findJob } from "../jobs/store.ts";
import {
  Message,
  MessagePage,
  MessageQuery,
  MessageStanding,
  MessagesSeen,
  NewMessage,
  UnreadList,
} from "./schemas.ts";
import { listMessages, listUnread, type MessageRow, readStanding } from "./store.ts";
import { readThrough, writeMessage } from "./write-message.ts";

const TAGS = ["Messages"];
const UNREAD_JOBS_MOST = 100;

export const messageRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/jobs/:id/messages", {
    schema: {
      operationId: "writeMessage",
      summary: "Write to whoever works on a job",
      tags: TAGS,
      params: IdParams,
      body: NewMessage,
      response: { 201: Message, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const message = { jobId: request.params.id, personId, fromTablet: false, ...request.body };
        return { body: shownMessage(await writeMessage(tx, message, now())) };
      }),
  });

  app.get("/api/v1/jobs/:id/messages", {
    schema: {
      operationId: "listMessages",
      summary: "Read a job's messages",
      tags: TAGS,
      params: IdParams,
      querystring: MessageQuery,
      response: { 200: MessagePage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, from } = request.query;
      const after = Number(afterText(cursor) ?? Number.NaN);
      const filter = { last: from === "last", most: limit + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findJob(tx, request.params.id))) throw notFound("job");
        return listMessages(tx, request.params.id, {
          ...filter,
          ...(Number.isSafeInteger(after) ? { after } : {}),
        });
      });
      return toPage(request, reply, rows.map(shownMessage), limit, ({ number }) => `${number}`);
    },
  });

  app.get("/api/v1/jobs/:id/messages/seen", {
    schema: {
      operationId: "readMessagesSeen",
      summary: "See how far you have read in a job's messages",
      tags: TAGS,
      params: IdParams,
      response: { 200: MessageStanding, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { firmId, personId } = signedIn(request);
      return inFirm(db, firmId, async (tx) => {
        if (!(await findJob(tx, request.params.id))) throw notFound("job");
        return readStanding(tx, request.params.id, personId);
      });
    },
  });

  app.put("/api/v1/jobs/:id/messages/seen", {
    schema: {
      operationId: "putMessagesSeen",
      summary: "Say how far you have read; it never goes back",
      tags: TAGS,
      params: IdParams,
      body: MessagesSeen,
      response: { 200: MessageStanding, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { firmId, personId } = signedIn(request);
      const { id } = request.params;
      return inFirm(db, firmId, async (tx) => {
        await readThrough(tx, id, personId, request.body.through);
        return readStanding(tx, id, personId);
      });
    },
  });

  app.get("/api/v1/messages/unread", {
    schema: {
      operationId: "listUnreadMessages",
      summary: "List open jobs with messages that you have not read",
      tags: TAGS,
      response: { 200: UnreadList, ...problems(401, 403) },
    },
    handler: async (request) => {
      const { firmId, personId } = signedIn(request);
      const items = await inFirm(db, firmId, (tx) => listUnread(tx, personId, UNREAD_JOBS_MOST));
      return { items, next: null };
    },
  });
};

const shownMessage = ({ person, writtenAt, firmId: _firm, ...row }: MessageRow) => ({
  ...row,
  personName: person.name,
  writtenAt: writtenAt.toISOString(),
});
