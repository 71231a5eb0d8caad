import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import { emptyBrowserCache } from "../../web/caches.ts";
import type { App, Feature } from "../../web/feature.ts";
import { isInsecure } from "../../web/insecure.ts";
import { localPath, sendPage } from "../../web/page.ts";
import { logRefusal, logSession } from "../../web/security-log.ts";
import { clearCookies, signedIn } from "../../web/session.ts";
import { isThereAFirm } from "../firms/store.ts";
import { openHere } from "./open-here.ts";
import { checkCode, checkPassword, openFor } from "./sign-in.ts";
import { findPersonByEmail, revokeSession } from "./store.ts";
import { noteSuccess } from "./throttle.ts";

const SignInForm = z.object({
  email: z.string().trim().max(254),
  password: z.string().max(200),
  next: z.string().max(400).optional(),
});

const HALF_WAY_S = 300;
const CodeForm = z.object({
  half: z.string().max(1000),
  code: z.string().trim().max(40),
  next: z.string().max(400).optional(),
});

export const sessionPages: Feature = async (app, context) => {
  const { db, config, liveness, now } = context;
  app.get("/sign-in", {
    schema: {
      operationId: "signInPage",
      hide: true,
      querystring: z.object({ next: z.string().max(400).optional() }),
    },
    handler: async (request, reply) => {
      if (!(await isThereAFirm(db))) return reply.redirect("/start", 303);
      return sendPage(request, reply, "sign-in", {
        title: say(request.language, "session.title"),
        next: localPath(request.query.next),
        insecure: isInsecure(request, config.PUBLIC_URL),
      });
    },
  });

  app.post("/sign-in", {
    schema: { operationId: "signInForm", hide: true, body: SignInForm },
    handler: async (request, reply) => {
      const { email, password, next } = request.body;
      const userAgent = request.headers["user-agent"];
      try {
        const person = await checkPassword(db, { email, password, ip: request.ip }, now());
        if (person.totpConfirmedAt !== null) {
          const half = app.jwt.sign({ half: email.toLowerCase() }, { expiresIn: HALF_WAY_S });
          return showCode(request, reply, { half, next });
        }
        await noteSuccess(db, email);
        const opened = await openFor(db, person, userAgent, now());
        await openHere(app, context, request, reply, opened);
        return reply.redirect(person.passwordGivenAt ? "/account" : localPath(next), 303);
      } catch (error) {
        if (!(error instanceof Problem)) throw error;
        logRefusal(request, error);
        reply.code(error.status);
        return sendPage(request, reply, "sign-in", {
          title: say(request.language, "session.title"),
          ...{ email, next: localPath(next), refused: error.message },
        });
      }
    },
  });

  app.post("/sign-in/code", {
    schema: { operationId: "signInCodeForm", hide: true, body: CodeForm },
    handler: async (request, reply) => {
      const { half, code, next } = request.body;
      const email = emailOf(app, half);
      const person = email === undefined ? undefined : await findPersonByEmail(db, email);
      // Half signed in is not signed in: who took too long begins again.
      if (!person?.active || email === undefined) return reply.redirect("/sign-in", 303);
      try {
        const ground = { dataFolder: config.dataFolder, now };
        await checkCode(db, person, { email, ip: request.ip, code }, ground);
      } catch (error) {
        if (!(error instanceof Problem)) throw error;
        logRefusal(request, error);
        return showCode(request, reply.code(error.status), { half, next, refused: error.message });
      }
      await noteSuccess(db, email);
      const opened = await openFor(db, person, request.headers["user-agent"], now());
      await openHere(app, context, request, reply, opened);
      return reply.redirect(person.passwordGivenAt ? "/account" : localPath(next), 303);
    },
  });

  app.post("/sign-out", {
    schema: { operationId: "signOutForm", hide: true },
    handler: async (request, reply) => {
      const { firmId, sessionId } = signedIn(request);
      await inFirm(db, firmId, (tx) => revokeSession(tx, sessionId));
      logSession(request, "signed out", signedIn(request));
      liveness.forget();
      clearCookies(reply);
      emptyBrowserCache(reply);
      return reply.redirect("/sign-in", 303);
    },
  });
};

/** Who has shown the password and not yet the code; undefined when that was too long ago. */
function emailOf(app: App, half: string): string | undefined {
  try {
    return z.object({ half: z.string() }).parse(app.jwt.verify(half)).half;
  } catch {
    return undefined;
  }
}

const showCode = (
  request: FastifyRequest,
  reply: FastifyReply,
  shown: { half: string; next?: string | undefined; refused?: string },
) =>
  sendPage(request, reply, "sign-in-code", {
    title: say(request.language, "session.codeTitle"),
    ...{ ...shown, next: localPath(shown.next) },
  });
