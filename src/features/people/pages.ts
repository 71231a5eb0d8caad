import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
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
import { ROLES } from "../../web/roles.ts";
import { signedIn } from "../../web/session.ts";
import { invite, inviteNew } from "../invitations/invite.ts";
import { invitedPeople } from "../invitations/store.ts";
import { revokeAllSessions } from "../session/store.ts";
import { removeTwoStep, setTwoStepRoles, twoStepRoles } from "../two-step/store.ts";
import { editPersonSafely } from "./edit-person.ts";
import { NewPerson, PersonEdit } from "./schemas.ts";
import { findPerson, listPeople } from "./store.ts";

const PEOPLE_MOST = 500;
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const Invited = NewPerson.omit({ password: true });
const Edit = PersonEdit.extend({
  version: z.coerce.number().int(),
  active: z.stringbool().default(false),
});

export const peoplePages: Feature = async (app, { db, config, liveness, now }) => {
  app.get("/people", {
    schema: { operationId: "peoplePage", hide: true },
    handler: async (request, reply) => showList(request, reply, {}),
  });

  app.post("/people", {
    schema: { operationId: "inviteForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(Invited, { ...typed, roles: listOf(typed.roles) });
      if (!read.ok) return showList(request, reply.code(422), typed, read.problems);
      const { firmId, personId } = signedIn(request);
      try {
        await inFirm(db, firmId, (tx) =>
          inviteNew(tx, read.value, { config, now: now(), personId }),
        );
      } catch (error) {
        return showList(request, reply.code(422), typed, refusedFields(error));
      }
      return reply.redirect("/people", 303);
    },
  });

  app.post("/people/two-step-roles", {
    schema: { operationId: "twoStepRolesForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const roles = z.array(z.enum(ROLES)).parse(listOf(request.body.roles));
      await inFirm(db, signedIn(request).firmId, (tx) => setTwoStepRoles(tx, roles));
      return reply.redirect("/people", 303);
    },
  });

  app.get("/people/:id", {
    schema: { operationId: "personPage", hide: true, params: IdParams },
    handler: async (request, reply) => showOne(request, reply),
  });

  app.post("/people/:id", {
    schema: { operationId: "editPersonForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(Edit, { ...typed, roles: listOf(typed.roles) });
      if (!read.ok) return showOne(request, reply.code(422), typed, read.problems);
      const { version, ...change } = read.value;
      try {
        await inFirmAs(db, signedIn(request), (tx) =>
          editPersonSafely(tx, request.params.id, version, change),
        );
      } catch (error) {
        return showOne(request, reply.code(422), typed, refusedFields(error));
      }
      liveness.forget();
      return reply.redirect("/people", 303);
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

  async function showList(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const data = await inFirm(db, firmId, async (tx) => ({
      active: await listPeople(tx, { active: true, most: PEOPLE_MOST }),
      gone: await listPeople(tx, { active: false, most: PEOPLE_MOST }),
      invited: await invitedPeople(tx, now()),
      wanted: await twoStepRoles(tx),
    }));
    return sendPage(request, reply, "people", {
      title: say(language, "people.title"),
      ...{ typed, problems, gone: data.gone, isOwner: roles.includes("owner") },
      people: data.active.map((person) => ({
        ...person,
        roleNames: roleNames(person.roles, language),
        hasTwoStep: person.totpConfirmedAt !== null,
        isInvited: data.invited.has(person.id),
        neverIn: person.passwordHash === null,
      })),
      roleChoices: roleChoices(language, listOf(typed.roles)),
      twoStepChoices: roleChoices(language, data.wanted),
    });
  }

  async function showOne(
    request: FastifyRequest,
    reply: FastifyReply,
    typed?: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { id } = request.params as { id: string };
    const person = await inFirm(db, signedIn(request).firmId, (tx) => findPerson(tx, id));
    if (!person) throw notFound("person");
    const shown = typed ?? {
      ...{ name: person.name, roles: person.roles, version: String(person.version) },
      active: person.active ? "true" : "",
    };
    return sendPage(request, reply, "person", {
      title: person.name,
      ...{ id, email: person.email, typed: shown, problems },
      hasTwoStep: person.totpConfirmedAt !== null,
      neverIn: person.passwordHash === null,
      roleChoices: roleChoices(language, listOf(shown.roles)),
    });
  }
};

const roleNames = (roles: readonly string[], language: FastifyRequest["language"]): string =>
  roles.map((role) => say(language, `role.${role as (typeof ROLES)[number]}`)).join(", ");

const roleChoices = (language: FastifyRequest["language"], ticked: readonly string[]) =>
  ROLES.map((value) => ({
    ...{ value, text: say(language, `role.${value}`), ticked: ticked.includes(value) },
  }));
