// Who is asking: a short-lived signed token, in a __Host- cookie for browsers or as bearer for
// programs.
import { Readable } from "node:stream";
import cookie from "@fastify/cookie";
import jwt from "@fastify/jwt";
import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inSameScope, withinAudit } from "../db/audit-scope.ts";
import { Problem } from "../errors.ts";
import { LANGUAGES, type Language } from "../language/languages.ts";
import type { AuditStanding } from "./audit-standing.ts";
import { ROLES } from "./roles.ts";

const CLAIMS = z.object({
  sub: z.guid(),
  firm: z.guid(),
  sid: z.guid(),
  name: z.string(),
  roles: z.array(z.enum(ROLES)),
  epoch: z.number().int(),
  // Tokens from before there were languages live for another quarter of an hour.
  language: z.enum(LANGUAGES).catch("en"),
  enrol: z.boolean().optional(),
});
type Claims = z.infer<typeof CLAIMS>;

export interface SignedIn {
  firmId: string;
  personId: string;
  sessionId: string;
  name: string;
  roles: Claims["roles"];
  epoch: number;
  language: Language;
  /** The firm asks for a second step that is not set up: only that can be done. */
  mustEnrol?: boolean | undefined;
  /** A cookie is sent by the browser unasked, so cookie requests are checked for their origin. */
  via: "cookie" | "bearer";
  /** A program with a key: it may do what these scopes open, and nothing by its roles. */
  scopes?: readonly string[];
  /** What limits an auditor now. */
  audit?: AuditStanding | undefined;
}

export interface SessionTokens {
  accessToken: string;
  refreshToken: string;
  expiresInS: number;
}

export type SessionSubject = Omit<SignedIn, "via" | "scopes" | "audit">;

declare module "fastify" {
  interface FastifyRequest {
    session: SignedIn | null;
  }
}

export const ACCESS_LIFE_S = 900;
export const REFRESH_LIFE_S = 30 * 24 * 3600;
/** However often it is renewed: then its person signs in again. */
export const SESSION_LIFE_S = 90 * 24 * 3600;
const ACCESS_COOKIE = "__Host-access";
const REFRESH_COOKIE = "__Host-refresh";
const COOKIE = { path: "/", secure: true, httpOnly: true, sameSite: "lax" } as const;

export interface SessionOptions {
  secret: string;
  /** Undefined once it stands no more: signed out, the person not active or of other roles. */
  standing(session: SessionSubject): Promise<AuditStanding | undefined>;
  /** Who asks with this key for programs; undefined for anything else. */
  byKey(text: string): Promise<SignedIn | undefined>;
  /** Trades a browser's refresh secret for fresh tokens, so that a page opened late still opens. */
  renew(
    refreshToken: string,
  ): Promise<{ subject: SessionSubject; refreshToken: string } | undefined>;
}

export async function registerSession(
  app: FastifyInstance,
  options: SessionOptions,
): Promise<void> {
  await app.register(cookie);
  await app.register(jwt, {
    secret: options.secret,
    sign: { algorithm: "HS256" },
    // Only the algorithm we sign with; a token seen before is not hashed again until it expires.
    verify: { algorithms: ["HS256"], cache: 5000 },
  });
  app.decorateRequest("session", null);
  app.addHook("onRequest", async (request, reply) => {
    if (request.routeOptions.config.ignoresSession) return;
    const key = /^Bearer (hp_[\w-]+)$/i.exec(request.headers.authorization ?? "")?.[1];
    if (key !== undefined) {
      request.session = (await options.byKey(key)) ?? null;
      return;
    }
    const session = readSession(app, request);
    const audit = session && (await options.standing(session));
    if (session && audit) {
      request.session = { ...session, audit };
      return;
    }
    const secret = request.cookies[REFRESH_COOKIE];
    if (secret === undefined || request.headers.authorization || !isPageVisit(request)) return;
    const renewed = await options.renew(secret);
    if (!renewed) return;
    setCookies(reply, issue(app, renewed.subject, renewed.refreshToken));
    const { subject } = renewed;
    request.session = { ...subject, via: "cookie", audit: await options.standing(subject) };
  });
  readWithinScope(app);
}

/**
 * All of an auditor's request reads within their scope. Twice, since a body arrives by the
 * connection, which knows nothing of the request; what leaves as a stream is fetched by it too.
 */
function readWithinScope(app: FastifyInstance): void {
  const within = (request: FastifyRequest, _reply: FastifyReply, done: () => void) =>
    withinAudit(request.session?.audit?.scope, done, request.session?.audit?.auditorId);
  app.addHook("onRequest", within);
  app.addHook("preValidation", within);
  app.addHook("onSend", async (request, _reply, payload) => {
    if (request.session?.audit?.auditorId === undefined || !(payload instanceof Readable)) {
      return payload;
    }
    return Readable.from(inSameScope(payload), { objectMode: false });
  });
}

const isPageVisit = (request: FastifyRequest): boolean =>
  request.method === "GET" && (request.headers.accept ?? "").includes("text/html");

function readSession(app: FastifyInstance, request: FastifyRequest): SignedIn | undefined {
  const bearer = /^Bearer ([\w.-]+)$/i.exec(request.headers.authorization ?? "")?.[1];
  const token = bearer ?? request.cookies[ACCESS_COOKIE];
  if (token === undefined) return undefined;
  try {
    const claims = CLAIMS.parse(app.jwt.verify(token));
    return {
      firmId: claims.firm,
      personId: claims.sub,
      sessionId: claims.sid,
      name: claims.name,
      roles: claims.roles,
      epoch: claims.epoch,
      language: claims.language,
      mustEnrol: claims.enrol ?? false,
      via: bearer === undefined ? "cookie" : "bearer",
    };
  } catch {
    return undefined;
  }
}

export function issue(
  app: FastifyInstance,
  subject: SessionSubject,
  refreshToken: string,
): SessionTokens {
  const claims: Claims = {
    sub: subject.personId,
    firm: subject.firmId,
    sid: subject.sessionId,
    name: subject.name,
    roles: subject.roles,
    epoch: subject.epoch,
    language: subject.language,
    ...(subject.mustEnrol ? { enrol: true } : {}),
  };
  const accessToken = app.jwt.sign(claims, { expiresIn: ACCESS_LIFE_S });
  return { accessToken, refreshToken, expiresInS: ACCESS_LIFE_S };
}

/** The same session goes on with other claims. */
export function setAccessCookie(reply: FastifyReply, { accessToken }: SessionTokens): void {
  reply.setCookie(ACCESS_COOKIE, accessToken, { ...COOKIE, maxAge: ACCESS_LIFE_S });
}

export function setCookies(reply: FastifyReply, tokens: SessionTokens): void {
  setAccessCookie(reply, tokens);
  reply.setCookie(REFRESH_COOKIE, tokens.refreshToken, { ...COOKIE, maxAge: REFRESH_LIFE_S });
}

export function clearCookies(reply: FastifyReply): void {
  reply.clearCookie(ACCESS_COOKIE, COOKIE);
  reply.clearCookie(REFRESH_COOKIE, COOKIE);
}

export const refreshCookie = (request: FastifyRequest): string | undefined =>
  request.cookies[REFRESH_COOKIE];

export function signedIn(request: FastifyRequest): SignedIn {
  if (request.session === null) throw new Problem("not-signed-in", "Sign in first.");
  return request.session;
}
