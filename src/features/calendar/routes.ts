import { createHash } from "node:crypto";
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { matchesETag } from "../../web/etag-match.ts";
import type { Context, Feature } from "../../web/feature.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { endAddress, findAddress, findByHash, noteFetch } from "./address-store.ts";
import { writeFeed } from "./feed.ts";
import { baseUrlOf, newAddress } from "./new-address.ts";
import { CalendarAddress, NewCalendarAddress } from "./schemas.ts";
import { hashOf, SECRET } from "./secret.ts";

const TAGS = ["Visits"];

export const calendarRoutes: Feature = async (app, context) => {
  const { db, config, now } = context;

  app.get("/api/v1/calendar-address", {
    schema: {
      operationId: "readCalendarAddress",
      summary: "See whether your visits can be read as a calendar, and when they last were",
      tags: TAGS,
      response: { 200: CalendarAddress, ...problems(401) },
    },
    handler: async (request) => {
      const { firmId, personId } = signedIn(request);
      const row = await inFirm(db, firmId, (tx) => findAddress(tx, personId));
      return {
        exists: row !== null,
        createdAt: row?.createdAt.toISOString() ?? null,
        fetchedAt: row?.fetchedAt?.toISOString() ?? null,
      };
    },
  });

  app.post("/api/v1/calendar-address", {
    schema: {
      operationId: "makeCalendarAddress",
      summary: "Make a secret address at which your visits can be read as a calendar",
      description:
        "Each call makes another address and ends the one before at once, so an Idempotency-Key " +
        "is not kept: its reply would be the secret.",
      tags: TAGS,
      response: { 201: NewCalendarAddress, ...problems(401) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const at = now();
      const where = { now: at, baseUrl: baseUrlOf(config, request) };
      const url = await inFirm(db, firmId, (tx) => newAddress(tx, personId, where));
      reply.code(201).header("cache-control", "no-store");
      return { url, createdAt: at.toISOString() };
    },
  });

  app.delete("/api/v1/calendar-address", {
    schema: {
      operationId: "endCalendarAddress",
      summary: "End your calendar's address at once",
      tags: TAGS,
      response: { 204: noBody(), ...problems(401, 404) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      if (!(await inFirm(db, firmId, (tx) => endAddress(tx, personId)))) {
        throw new Problem("not-found", "You have no calendar address.");
      }
      return reply.code(204).send();
    },
  });

  app.get("/calendar/:file", {
    schema: {
      operationId: "calendarFeed",
      hide: true,
      params: z.object({ file: z.string().max(100) }),
    },
    // The address is a secret and stays out of the log.
    handler: async (request, reply) => sendFeed(request, reply, context, request.params.file),
  });
};

async function sendFeed(
  request: FastifyRequest,
  reply: FastifyReply,
  { db, config, now }: Context,
  file: string,
): Promise<FastifyReply> {
  const secret = file.endsWith(".ics") ? file.slice(0, -4) : "";
  const owner = SECRET.test(secret) ? await findByHash(db, hashOf(secret)) : null;
  const where = { now: now(), baseUrl: baseUrlOf(config, request) };
  const text = owner
    ? await inFirm(db, owner.firmId, async (tx) => {
        await noteFetch(tx, owner.personId, where.now);
        return writeFeed(tx, owner.personId, where);
      })
    : undefined;
  if (text === undefined) {
    throw new Problem("not-found", "There is no calendar at this address, or no longer.");
  }
  const etag = `"${createHash("sha256").update(text).digest("base64url")}"`;
  reply.header("etag", etag).header("cache-control", "private, no-cache");
  if (matchesETag(request, etag)) return reply.code(304).send();
  return reply
    .type("text/calendar; charset=utf-8")
    .header("content-disposition", 'inline; filename="visits.ics"')
    .serializer((body: string) => body)
    .send(text);
}
