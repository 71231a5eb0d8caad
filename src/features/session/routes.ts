import type { FastifyRequest } from "fastify";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { emptyBrowserCache } from "../../web/caches.ts";
import type { Feature } from "../../web/feature.ts";
import { noBody, problems } from "../../web/responses.ts";
import { logSession } from "../../web/security-log.ts";
import {
  clearCookies,
  issue,
  refreshCookie,
  type SessionSubject,
  type SessionTokens,
  setCookies,
  signedIn,
} from "../../web/session.ts";
import { openHere } from "./open-here.ts";
import { renewSession } from "./renew.ts";
import { RefreshRequest, SessionReply, SignInRequest, Who } from "./schemas.ts";
import { signIn } from "./sign-in.ts";
import { revokeAllSessions, revokeSession } from "./store.ts";

const TAGS = ["Session"];

export const sessionRoutes: Feature = async (app, context) => {
  const { db, config, liveness, now } = context;
  app.post("/api/v1/session", {
    schema: {
      operationId: "signIn",
      summary: "Sign in",
      description: "Gives programs tokens and browsers cookies, which no script can read.",
      tags: TAGS,
      security: [],
      body: SignInRequest,
      response: { 201: SessionReply, ...problems(401, 403, 422, 429) },
    },
    handler: async (request, reply) => {
      const ground = { dataFolder: config.dataFolder, now };
      const opened = await signIn(db, { ...request.body, ...clientOf(request) }, ground);
      const tokens = await openHere(app, context, request, reply, opened);
      return reply.code(201).send({ ...told(request, tokens), person: whoIs(opened.subject) });
    },
  });

  app.post("/api/v1/session/refresh", {
    schema: {
      operationId: "refreshSession",
      summary: "Trade the refresh token for new tokens",
      tags: TAGS,
      security: [],
      body: RefreshRequest.default({}),
      response: { 201: SessionReply, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const given = request.body.refreshToken ?? refreshCookie(request);
      const renewed = given === undefined ? undefined : await renewSession(db, given);
      if (!renewed) throw new Problem("not-signed-in", "The session has ended. Sign in again.");
      const refusal = (await liveness.standing(renewed.subject))?.refusal;
      if (refusal !== undefined) throw new Problem("access-ended", refusal);
      const tokens = issue(app, renewed.subject, renewed.refreshToken);
      setCookies(reply, tokens);
      return reply.code(201).send({ ...told(request, tokens), person: whoIs(renewed.subject) });
    },
  });

  app.get("/api/v1/session", {
    schema: {
      operationId: "readSession",
      summary: "Who is signed in",
      tags: TAGS,
      response: { 200: Who, ...problems(401) },
    },
    handler: async (request) => whoIs(signedIn(request)),
  });

  app.delete("/api/v1/session", {
    schema: {
      operationId: "signOut",
      summary: "Sign out here",
      tags: TAGS,
      response: { 204: noBody(), ...problems(401) },
    },
    handler: async (request, reply) => {
      const { firmId, sessionId } = signedIn(request);
      await inFirm(db, firmId, (tx) => revokeSession(tx, sessionId));
      logSession(request, "signed out", signedIn(request));
      liveness.forget();
      clearCookies(reply);
      emptyBrowserCache(reply);
      return reply.code(204).send();
    },
  });

  app.delete("/api/v1/sessions", {
    schema: {
      operationId: "signOutEverywhere",
      summary: "Sign out on every device",
      tags: TAGS,
      response: { 204: noBody(), ...problems(401) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) => revokeAllSessions(tx, personId));
      logSession(request, "signed out everywhere", signedIn(request));
      liveness.forget();
      clearCookies(reply);
      emptyBrowserCache(reply);
      return reply.code(204).send();
    },
  });
};

/**
 * A browser says by itself where a request comes from, and no script can leave that out: it has its
 * cookies, and a script that crept in has nothing to carry away.
 */
function told(request: FastifyRequest, tokens: SessionTokens) {
  const { "sec-fetch-site": site, origin } = request.headers;
  return site === undefined && origin === undefined ? tokens : { expiresInS: tokens.expiresInS };
}

function whoIs(subject: SessionSubject) {
  const { personId, firmId, name, roles, language } = subject;
  return { personId, firmId, name, roles, language };
}

function clientOf(request: FastifyRequest): { ip: string; userAgent?: string } {
  const userAgent = request.headers["user-agent"];
  return { ip: request.ip, ...(userAgent ? { userAgent } : {}) };
}
