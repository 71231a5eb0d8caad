import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { actOnMail, type MailAction } from "./change-mail.ts";
import { composeRaw } from "./compose.ts";
import { findMail, findWholeMail, listMails } from "./outbox-store.ts";
import { Mail, MailPage, MailQuery } from "./schemas.ts";
import { clockOf, shown } from "./shown.ts";

const TAGS = ["Mail"];

const ACTIONS: readonly { action: MailAction; operationId: string; summary: string }[] = [
  { action: "resend", operationId: "resendMail", summary: "Let a mail that failed begin anew" },
  { action: "attempt", operationId: "attemptMail", summary: "Try a waiting mail now" },
  { action: "hold", operationId: "holdMail", summary: "Keep a waiting mail from going out" },
  { action: "release", operationId: "releaseMail", summary: "Let a held mail go out" },
  { action: "cancellation", operationId: "cancelMail", summary: "Give a mail up" },
  {
    action: "sent-by-hand",
    operationId: "markMailSent",
    summary: "Say that a mail was sent by hand, from its file",
  },
];

export const mailRoutes: Feature = async (app, { db, config, now }) => {
  app.get("/api/v1/mails", {
    schema: {
      operationId: "listMails",
      summary: "See the outbox: what waits, what went out, what failed and why",
      tags: TAGS,
      querystring: MailQuery,
      response: { 200: MailPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const items = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const rows = await listMails(tx, { ...filter, after: afterId(cursor), most: limit + 1 });
        const clock = await clockOf(tx, now(), config);
        return rows.map((row) => shown(row, clock));
      });
      return toPage(request, reply, items, limit, (row) => row.id);
    },
  });

  app.get("/api/v1/mails/:id", {
    schema: {
      operationId: "readMail",
      summary: "Read one mail",
      tags: TAGS,
      params: IdParams,
      response: { 200: Mail, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await findMail(tx, request.params.id);
        if (!row) throw notFound("mail");
        return shown(row, await clockOf(tx, now(), config));
      }),
  });

  app.get("/api/v1/mails/:id/message", {
    schema: {
      operationId: "readMailMessage",
      summary: "Fetch a mail as a message (RFC 5322), for sending it by hand",
      tags: TAGS,
      params: IdParams,
      response: {
        200: {
          description: "The message, lines ended by CRLF",
          content: { "message/rfc822": { schema: z.string().meta({ format: "binary" }) } },
        },
        ...problems(401, 403, 404, 422),
      },
    },
    handler: async (request, reply) => {
      const mail = await inFirm(db, signedIn(request).firmId, (tx) =>
        findWholeMail(tx, request.params.id),
      );
      if (!mail) throw notFound("mail");
      const raw = await composeRaw(config, mail);
      return (
        reply
          .type("message/rfc822")
          .header("content-disposition", `attachment; filename="${mail.id}.eml"`)
          .header("cache-control", "no-store")
          // Bytes go out as they are, past the schema.
          .send(raw as never)
      );
    },
  });

  for (const { action, operationId, summary } of ACTIONS) {
    app.post(`/api/v1/mails/:id/${action}`, {
      schema: {
        operationId,
        summary,
        tags: TAGS,
        params: IdParams,
        response: { 201: Mail, ...problems(401, 403, 404, 409, 422) },
      },
      handler: async (request, reply) => {
        const { id } = request.params as { id: string };
        return create(db, request, reply, async (tx) => {
          const row = await actOnMail(tx, id, action, now());
          return { body: shown(row, await clockOf(tx, now(), config)) };
        });
      },
    });
  }
};
