import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { isLanguage } from "../../language/languages.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { afterId, PAGE_QUERY, pageOf, toPage } from "../../web/paging.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { baseUrlOf } from "../calendar/new-address.ts";
import { findJob } from "../jobs/store.ts";
import { mailHost } from "../mail/post.ts";
import { endLink, makeLink } from "./make-link.ts";
import { HandoverLink, MadeHandoverLink, NewHandoverLink } from "./schemas.ts";
import { type LinkRow, listLinks } from "./store.ts";

const TAGS = ["Evidence"];

export const handoverLinkRoutes: Feature = async (app, { db, config, now }) => {
  app.post("/api/v1/jobs/:id/handover-links", {
    schema: {
      operationId: "makeHandoverLink",
      summary: "Make a link by which the customer reads the papers of a closed job",
      description:
        "It opens handover pack and commissioning record without signing in until it runs out or " +
        "is ended. Each call makes another; an Idempotency-Key is not kept, since the reply " +
        "holds the secret. Making, opening (once a day) and ending it are on the job's ledger.",
      tags: TAGS,
      params: IdParams,
      body: NewHandoverLink,
      response: { 201: MadeHandoverLink, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const session = signedIn(request);
      const ground = { host: mailHost(config), now: now(), personId: session.personId };
      const baseUrl = baseUrlOf(config, request);
      const { link, url } = await inFirmAs(db, session, (tx) =>
        makeLink(tx, request.params.id, request.body, { ...ground, baseUrl }),
      );
      reply.code(201).header("cache-control", "no-store");
      return { ...shownLink(link), url };
    },
  });

  app.get("/api/v1/jobs/:id/handover-links", {
    schema: {
      operationId: "listHandoverLinks",
      summary: "See who was given the papers of a job by which link, the latest first",
      tags: TAGS,
      params: IdParams,
      querystring: z.strictObject(PAGE_QUERY),
      response: { 200: pageOf(HandoverLink), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findJob(tx, id))) throw notFound("job");
        return listLinks(tx, id, { before: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shownLink), limit, (row) => row.id);
    },
  });

  app.delete("/api/v1/handover-links/:id", {
    schema: {
      operationId: "endHandoverLink",
      summary: "End a link at once",
      tags: TAGS,
      params: IdParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      await inFirmAs(db, session, (tx) => endLink(tx, request.params.id, by));
      return reply.code(204).send();
    },
  });
};

const shownLink = (row: LinkRow) => ({
  ...{ id: row.id, jobId: row.jobId, mailId: row.mailId, createdById: row.createdById },
  language: isLanguage(row.language) ? row.language : ("en" as const),
  createdAt: row.createdAt.toISOString(),
  expiresAt: row.expiresAt.toISOString(),
  revokedAt: row.revokedAt?.toISOString() ?? null,
  opened: row.opened,
  openedAt: row.openedAt?.toISOString() ?? null,
});
