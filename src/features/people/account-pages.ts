import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { isLanguage, LANGUAGE_NAMES, LANGUAGES } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { issue, setCookies, signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { openFor } from "../session/sign-in.ts";
import { findPersonByEmail, revokeSession } from "../session/store.ts";
import { OwnPassword } from "./schemas.ts";
import { setOwnPassword } from "./set-password.ts";
import { findPerson, openSessions, revokeOwnSession, setLanguage } from "./store.ts";

const FormFields = z.record(z.string(), z.string().max(400));
const LanguageForm = z.object({ language: z.union([z.literal(""), z.enum(LANGUAGES)]) });

/** A person's own settings. */
export const accountPages: Feature = async (app, { db, liveness, now }) => {
  app.get("/account", {
    schema: { operationId: "accountPage", hide: true },
    handler: async (request, reply) => show(request, reply),
  });

  app.post("/account/password", {
    schema: { operationId: "ownPasswordForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const read = readForm(OwnPassword, request.body);
      if (!read.ok) return show(request, reply.code(422), read.problems);
      try {
        await setOwnPassword(db, signedIn(request), read.value, request.ip);
      } catch (error) {
        return show(request, reply.code(422), refusedFields(error));
      }
      liveness.forget();
      return reply.redirect("/account", 303);
    },
  });

  // The language is in the token, so a fresh session carries it at once.
  app.post("/account/language", {
    schema: { operationId: "ownLanguageForm", hide: true, body: LanguageForm },
    handler: async (request, reply) => {
      const { firmId, personId, sessionId } = signedIn(request);
      const language = request.body.language === "" ? null : request.body.language;
      const person = await inFirm(db, firmId, async (tx) => {
        await setLanguage(tx, personId, language);
        await revokeSession(tx, sessionId);
        return findPerson(tx, personId);
      });
      liveness.forget();
      const found = person && (await findPersonByEmail(db, person.email));
      if (!found) return reply.redirect("/sign-in", 303);
      const opened = await openFor(db, found, request.headers["user-agent"], now());
      setCookies(reply, issue(app, opened.subject, opened.refreshToken));
      return reply.redirect("/account", 303);
    },
  });

  app.post("/account/sessions/:id/ending", {
    schema: { operationId: "endSessionForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) => revokeOwnSession(tx, personId, request.params.id));
      liveness.forget();
      return reply.redirect("/account", 303);
    },
  });

  async function show(request: FastifyRequest, reply: FastifyReply, problems?: FieldProblems) {
    const { language } = request;
    const { firmId, personId, sessionId } = signedIn(request);
    const data = await inFirm(db, firmId, async (tx) => ({
      firm: await readFirm(tx),
      person: await findPerson(tx, personId),
      sessions: await openSessions(tx, personId, now()),
    }));
    const own = data.person?.language;
    return sendPage(request, reply, "account", {
      title: say(language, "account.title"),
      ...{ problems, email: data.person?.email },
      hasTwoStep: data.person?.totpConfirmedAt !== null,
      chosen: isLanguage(own) ? own : "",
      languages: LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] })),
      sessions: data.sessions.map(({ id, userAgent, rotatedAt }) => ({
        ...{ id, userAgent, isThis: id === sessionId },
        used: dayAndTime(language, rotatedAt, data.firm.timeZone),
      })),
    });
  }
};
