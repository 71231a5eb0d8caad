import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { isLanguage, LANGUAGE_NAMES, LANGUAGES } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { issue, setAccessCookie, signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { givenUntil } from "../session/given-password.ts";
import { languageOf } from "../session/store.ts";
import { requirePresentPassword } from "./present-password.ts";
import { OwnPassword } from "./schemas.ts";
import { setOwnPassword } from "./set-password.ts";
import {
  findPerson,
  openSessions,
  revokeOtherSessions,
  revokeOwnSession,
  setLanguage,
} from "./store.ts";

const FormFields = z.record(z.string(), z.string().max(400));
/** Which session, or all others; and the present password, so that no passer-by ends any. */
const EndingForm = z.object({
  session: z.union([z.literal("others"), z.guid()]),
  proof: z.string().max(200),
});
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

  // The language is in the token, so a fresh one of the same session carries it at once.
  app.post("/account/language", {
    schema: { operationId: "ownLanguageForm", hide: true, body: LanguageForm },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const chosen = request.body.language === "" ? null : request.body.language;
      const language = await inFirm(db, firmId, async (tx) => {
        await setLanguage(tx, personId, chosen);
        return languageOf(tx, { language: chosen });
      });
      setAccessCookie(reply, issue(app, { ...signedIn(request), language }, ""));
      return reply.redirect("/account", 303);
    },
  });

  app.post("/account/sessions/ending", {
    schema: { operationId: "endSessionForm", hide: true, body: EndingForm },
    handler: async (request, reply) => {
      const { firmId, personId, sessionId } = signedIn(request);
      const { session, proof } = request.body;
      try {
        await requirePresentPassword(db, signedIn(request), proof, request.ip);
      } catch (error) {
        const { presentPassword, "": whole } = refusedFields(error);
        return show(request, reply.code(422), undefined, presentPassword ?? whole);
      }
      await inFirm(db, firmId, async (tx) => {
        if (session === "others") await revokeOtherSessions(tx, personId, sessionId);
        else await revokeOwnSession(tx, personId, session);
      });
      liveness.forget();
      return reply.redirect("/account", 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    problems?: FieldProblems,
    proofProblem?: string,
  ) {
    const { language } = request;
    const { firmId, personId, sessionId } = signedIn(request);
    const data = await inFirm(db, firmId, async (tx) => ({
      firm: await readFirm(tx),
      person: await findPerson(tx, personId),
      sessions: await openSessions(tx, personId, now()),
    }));
    const own = data.person?.language;
    const until = givenUntil(data.person?.passwordGivenAt ?? null);
    const shownAt = (moment: Date) => [language, moment, data.firm.timeZone] as const;
    return sendPage(request, reply, "account", {
      title: say(language, "account.title"),
      ...{ problems, proofProblem, email: data.person?.email },
      ...{ givenUntil: until && dayAndTime(...shownAt(until)) },
      hasTwoStep: data.person?.totpConfirmedAt !== null,
      chosen: isLanguage(own) ? own : "",
      languages: LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] })),
      sessions: data.sessions.map(({ id, userAgent, rotatedAt }) => ({
        ...{ id, userAgent, isThis: id === sessionId },
        used: dayAndTime(...shownAt(rotatedAt)),
      })),
    });
  }
};
