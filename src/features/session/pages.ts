import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { localPath, sendPage } from "../../web/page.ts";
import { clearCookies, issue, setCookies, signedIn } from "../../web/session.ts";
import { isThereAFirm } from "../firms/store.ts";
import { signIn } from "./sign-in.ts";
import { revokeSession } from "./store.ts";

const SignInForm = z.object({
  email: z.string().trim().max(254),
  password: z.string().max(200),
  next: z.string().max(400).optional(),
});

export const sessionPages: Feature = async (app, { db, config, liveness }) => {
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
        insecure: isInsecure(request.protocol, request.hostname, config.PUBLIC_URL),
      });
    },
  });

  app.post("/sign-in", {
    schema: { operationId: "signInForm", hide: true, body: SignInForm },
    handler: async (request, reply) => {
      const { email, password, next } = request.body;
      const userAgent = request.headers["user-agent"];
      try {
        const opened = await signIn(db, {
          email,
          password,
          ip: request.ip,
          ...(userAgent ? { userAgent } : {}),
        });
        setCookies(reply, issue(app, opened.subject, opened.refreshToken));
        return reply.redirect(localPath(next), 303);
      } catch (error) {
        if (!(error instanceof Problem)) throw error;
        reply.code(error.status);
        return sendPage(request, reply, "sign-in", {
          title: say(request.language, "session.title"),
          email,
          next: localPath(next),
          refused: error.message,
        });
      }
    },
  });

  app.post("/sign-out", {
    schema: { operationId: "signOutForm", hide: true },
    handler: async (request, reply) => {
      const { firmId, sessionId } = signedIn(request);
      await inFirm(db, firmId, (tx) => revokeSession(tx, sessionId));
      liveness.forget();
      clearCookies(reply);
      return reply.redirect("/sign-in", 303);
    },
  });
};

/**
 * A __Host- cookie needs TLS, or this very machine; elsewhere the sign-in would silently not hold.
 */
function isInsecure(protocol: string, hostname: string, publicUrl: string | undefined): boolean {
  if (protocol === "https" || publicUrl?.startsWith("https:")) return false;
  return !/^(localhost|127\.[\d.]+|\[::1\])$/.test(hostname);
}
