import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findMail, listMails, requeueMail } from "./outbox-store.ts";
import { Mail, MailPage, MailQuery } from "./schemas.ts";

const TAGS = ["Mail"];

export const mailRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/mails", {
    schema: {
      operationId: "listMails",
      summary: "See the outbox: what waits, what went out, what failed and why",
      tags: TAGS,
      querystring: MailQuery,
      response: { 200: MailPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, state } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listMails(tx, { state, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/mails/:id/resend", {
    schema: {
      operationId: "resendMail",
      summary: "Let a failed mail begin anew",
      tags: TAGS,
      params: IdParams,
      response: { 201: Mail, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await requeueMail(tx, request.params.id, now());
        if (row) return { body: shown(row) };
        const present = await findMail(tx, request.params.id);
        if (!present) throw notFound("mail");
        throw new Problem("conflict", `The mail is ${present.state}; only a failed one is resent.`);
      }),
  });
};

type Row = Awaited<ReturnType<typeof listMails>>[number];

const shown = (row: Row): z.infer<typeof Mail> => ({
  id: row.id,
  recipient: row.recipient,
  subject: row.subject,
  textBody: row.textBody,
  state: row.state as z.infer<typeof Mail>["state"],
  attempts: row.attempts,
  lastError: row.lastError,
  messageId: row.messageId,
  notBefore: row.notBefore.toISOString(),
  createdAt: row.createdAt.toISOString(),
  sentAt: row.sentAt?.toISOString() ?? null,
});
