import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  listOf,
  readForm,
  refusedFields,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { changeThatMade } from "../changes/store.ts";
import { changesView } from "../changes/view.ts";
import { invite } from "../invitations/invite.ts";
import { revokeAllSessions } from "../session/store.ts";
import { removeTwoStep } from "../two-step/store.ts";
import { editPersonSafely } from "./edit-person.ts";
import { roleChoices } from "./role-choices.ts";
import { PersonEdit } from "./schemas.ts";
import { findPerson } from "./store.ts";

const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const Query = z.object({ saved: z.guid().optional() });
const Edit = PersonEdit.extend({
  version: z.coerce.number().int(),
  active: z.stringbool().default(false),
});

/** One person, for the owner. */
export const personPages: Feature = async (app, { db, config, liveness, now }) => {
  app.get("/people/:id", {
    schema: { operationId: "personPage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) => show(request, reply),
  });

  app.post("/people/:id", {
    schema: { operationId: "editPersonForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const read = readForm(Edit, { ...typed, roles: listOf(typed.roles) });
      if (!read.ok) return show(request, reply.code(422), typed, read.problems);
      const { version, ...change } = read.value;
      let saved: string | undefined;
      try {
        saved = await inFirmAs(db, signedIn(request), async (tx) => {
          const row = await editPersonSafely(tx, id, { version, ...change }, now());
          return changeThatMade(tx, id, row.version);
        });
      } catch (error) {
        return show(request, reply.code(422), typed, refusedFields(error));
      }
      liveness.forget();
      return reply.redirect(`/people/${id}${saved ? `?saved=${saved}` : ""}`, 303);
    },
  });

  app.post("/people/:id/invitation", {
    schema: { operationId: "inviteAgainForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) =>
        invite(tx, request.params.id, { config, now: now(), personId }),
      );
      return reply.redirect("/people", 303);
    },
  });

  app.post("/people/:id/two-step", {
    schema: { operationId: "resetTwoStepForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findPerson(tx, id))) throw notFound("person");
        await removeTwoStep(tx, id);
        await revokeAllSessions(tx, id);
      });
      liveness.forget();
      return reply.redirect(`/people/${id}`, 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    typed?: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { id } = request.params as { id: string };
    const { saved } = request.query as z.infer<typeof Query>;
    const { person, ...changes } = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const found = await findPerson(tx, id);
      if (!found) throw notFound("person");
      const asks = { kind: "person", subjectId: id, path: `/people/${id}` } as const;
      return {
        person: found,
        ...(await changesView(tx, { ...asks, saved, mayUndo: true }, language)),
      };
    });
    const shown = typed ?? {
      ...{ name: person.name, roles: person.roles, version: String(person.version) },
      active: person.active ? "true" : "",
    };
    return sendPage(request, reply, "person", {
      title: person.name,
      ...{ ...changes, id, email: person.email, typed: shown, problems, styles: ["registry"] },
      hasTwoStep: person.totpConfirmedAt !== null,
      neverIn: person.passwordHash === null,
      roleChoices: roleChoices(language, listOf(shown.roles)),
    });
  }
};
