import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { isLanguage, LANGUAGE_NAMES, LANGUAGES } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { refuseGuessablePassword } from "../people/guessable-password.ts";
import { newPassword } from "../people/schemas.ts";
import { setLanguage, setPasswordHash } from "../people/store.ts";
import { openHere } from "../session/open-here.ts";
import { hashPassword } from "../session/password.ts";
import { openFor } from "../session/sign-in.ts";
import { findPersonByEmail } from "../session/store.ts";
import { type InvitationLink, invited } from "./invite.ts";
import { useInvitation } from "./store.ts";

const Params = z.object({ firmId: z.string(), id: z.string(), secret: z.string() });
const Link = z.object({ firmId: z.uuid(), id: z.uuid(), secret: z.string().length(43) });
// The address is a secret and stays out of the log.
const FormFields = z.record(z.string(), z.string().max(400));
const Acceptance = z.strictObject({ password: newPassword, language: z.enum(LANGUAGES) });

/** Opens an account once: the invited person sets a password of their own. */
export const invitationPages: Feature = async (app, context) => {
  const { db, now } = context;
  app.get("/invitation/:firmId/:id/:secret", {
    schema: { operationId: "invitationPage", hide: true, params: Params },
    handler: async (request, reply) => show(request, reply, openLink(request.params)),
  });

  app.post("/invitation/:firmId/:id/:secret", {
    schema: { operationId: "acceptInvitationForm", hide: true, params: Params, body: FormFields },
    handler: async (request, reply) => {
      const link = openLink(request.params);
      const read = readForm(Acceptance, request.body);
      if (!read.ok) return show(request, reply.code(422), link, read.problems);
      const { password, language } = read.value;
      try {
        const email = await accept(link, password, language);
        const person = await findPersonByEmail(db, email);
        if (!person) throw gone();
        const opened = await openFor(db, person, request.headers["user-agent"], now());
        await openHere(app, context, request, reply, opened);
        return reply.redirect("/", 303);
      } catch (error) {
        return show(request, reply.code(422), link, refusedFields(error));
      }
    },
  });

  async function accept(link: InvitationLink, password: string, language: string): Promise<string> {
    const person = await inFirm(db, link.firmId, (tx) => invited(tx, link, now()));
    if (!person) throw gone();
    await refuseGuessablePassword(password, person);
    const passwordHash = await hashPassword(password);
    await inFirm(db, link.firmId, async (tx) => {
      if (!(await useInvitation(tx, link.id, now()))) throw gone();
      await setPasswordHash(tx, person.id, passwordHash);
      await setLanguage(tx, person.id, language);
    });
    return person.email;
  }

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    link: InvitationLink,
    problems?: FieldProblems,
  ) {
    const person = await inFirm(db, link.firmId, (tx) => invited(tx, link, now()));
    if (!person) throw gone();
    const language = isLanguage(request.language) ? request.language : "en";
    return sendPage(request, reply, "invitation", {
      title: say(request.language, "invitation.title"),
      ...{ name: person.name, email: person.email, problems },
      link: `${link.firmId}/${link.id}/${link.secret}`,
      chosen: language,
      languages: LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] })),
    });
  }
};

function openLink(parts: unknown): InvitationLink {
  const link = Link.safeParse(parts);
  if (!link.success) throw gone();
  return link.data;
}

const gone = (): Problem =>
  new Problem("not-found", "This invitation opens nothing any more. Ask for a new one.");
