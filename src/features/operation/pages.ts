// How the service stands, as a page for whoever runs it. They are no person of a firm: the token
// that a monitoring service sends opens it, and no session of anybody is looked at.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { App, Context } from "../../web/feature.ts";
import { isInsecure } from "../../web/insecure.ts";
import { sendPage } from "../../web/page.ts";
import { logRefusal } from "../../web/security-log.ts";
import type { Desk } from "./desk.ts";
import { shownStanding } from "./page-view.ts";
import { makeSeal, SEAL_LIFE_S, sealHolds } from "./seal.ts";
import { RETRY_AFTER_S } from "./standing-routes.ts";

const PATH = "/operation";
const COOKIE_NAME = "__Host-operation";
const COOKIE = { path: "/", secure: true, httpOnly: true, sameSite: "strict" } as const;
const OWN = { config: { ignoresSession: true } };
const TokenForm = z.object({ token: z.string().max(1000) });

export function operationPages(app: App, context: Context, desk: Desk): void {
  const { config, now, operationKey } = context;
  const { METRICS_TOKEN: token, PUBLIC_URL } = config;

  const isOpen = (request: FastifyRequest): boolean => {
    const seal = request.cookies[COOKIE_NAME];
    return token !== undefined && !!seal && sealHolds(operationKey, token, seal, now());
  };
  const showForm = (request: FastifyRequest, reply: FastifyReply, refused?: string) =>
    sendOwnPage(request, reply, "operation-form", {
      ...{ hasToken: token !== undefined, refused, insecure: isInsecure(request, PUBLIC_URL) },
    });

  app.get(PATH, {
    ...OWN,
    schema: { operationId: "operationPage", hide: true },
    handler: async (request, reply) => {
      if (!isOpen(request)) return showForm(request, reply);
      const standing = await desk.standing();
      if (!standing.inside) reply.code(503).header("retry-after", String(RETRY_AFTER_S));
      const shown = shownStanding(request.language, standing, now());
      return sendOwnPage(request, reply, "operation", shown);
    },
  });

  app.post(`${PATH}/session`, {
    ...OWN,
    schema: { operationId: "operationSessionForm", hide: true, body: TokenForm },
    handler: async (request, reply) => {
      if (token === undefined) return showForm(request, reply.code(404));
      try {
        desk.guard.requireTyped(request, request.body.token);
      } catch (error) {
        if (!(error instanceof Problem)) throw error;
        logRefusal(request, error);
        const { retryAfterS } = error.extras;
        if (retryAfterS !== undefined) reply.header("retry-after", String(retryAfterS));
        return showForm(request, reply.code(error.status), error.message);
      }
      const seal = makeSeal(operationKey, token, now());
      request.log.info({ ip: request.ip }, "the operator's page was opened");
      return reply
        .setCookie(COOKIE_NAME, seal, { ...COOKIE, maxAge: SEAL_LIFE_S })
        .redirect(PATH, 303);
    },
  });

  app.post(`${PATH}/sign-out`, {
    ...OWN,
    schema: { operationId: "operationSignOutForm", hide: true },
    handler: async (_request, reply) => reply.clearCookie(COOKIE_NAME, COOKIE).redirect(PATH, 303),
  });
}

function sendOwnPage(
  request: FastifyRequest,
  reply: FastifyReply,
  name: string,
  data: Record<string, unknown>,
): FastifyReply {
  reply.header("x-robots-tag", "noindex");
  const title = say(request.language, "operation.title");
  return sendPage(request, reply, name, { ...data, title, home: PATH, styles: ["operation"] });
}
