// Who signs in takes this browser over: the session that was open in it before ends, so that none
// is left behind that nobody can see any more.
import type { FastifyReply, FastifyRequest } from "fastify";
import type { App, Context } from "../../web/feature.ts";
import { logSession } from "../../web/security-log.ts";
import { issue, refreshCookie, type SessionTokens, setCookies } from "../../web/session.ts";
import { endByRefreshToken } from "./renew.ts";
import type { OpenedSession } from "./sign-in.ts";

export async function openHere(
  app: App,
  { db, liveness }: Pick<Context, "db" | "liveness">,
  request: FastifyRequest,
  reply: FastifyReply,
  opened: OpenedSession,
): Promise<SessionTokens> {
  const before = refreshCookie(request);
  if (before !== undefined) {
    await endByRefreshToken(db, before);
    liveness.forget();
  }
  const tokens = issue(app, opened.subject, opened.refreshToken);
  setCookies(reply, tokens);
  logSession(request, "signed in", opened.subject);
  return tokens;
}
