import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { addPeriod } from "../../domain/dates/period.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import {
  type FieldProblems,
  type FormBody,
  listOf,
  readForm,
  refusedFields,
  requireForm,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { ROLES } from "../../web/roles.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { DAYS_USUAL } from "../audit-access/schemas.ts";
import { isOnlyAuditor } from "../audit-access/store.ts";
import { todayOfFirm } from "../firms/today.ts";
import { inviteNew } from "../invitations/invite.ts";
import { invitedPeople } from "../invitations/store.ts";
import { setTwoStepRoles, twoStepRoles } from "../two-step/store.ts";
import { roleChoices } from "./role-choices.ts";
import { NewPerson } from "./schemas.ts";
import { COLUMNS, sortedPeople } from "./sorted-store.ts";
import { listPeople } from "./store.ts";

const GONE_MOST = 500;
const PATH = "/people";
const USUAL = "name";
const PageQuery = z.object({
  ...sortedQuery(COLUMNS),
  name: asked(z.string().trim().max(120)),
  role: asked(z.enum(ROLES)),
});
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const Invited = NewPerson.omit({ password: true });

export const peoplePages: Feature = async (app, { db, config, now }) => {
  app.get(PATH, {
    schema: { operationId: "peoplePage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => showList(request, reply, {}),
  });

  app.post("/people", {
    schema: { operationId: "inviteForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const roles = listOf(typed.roles);
      const isAuditor = isOnlyAuditor(roles);
      // The field is there for an auditor alone, and posted with every form.
      const auditUntil = isAuditor ? typed.auditUntil : undefined;
      const read = readForm(Invited, { ...typed, roles, auditUntil });
      if (!read.ok) return showList(request, reply.code(422), typed, read.problems);
      const { firmId, personId } = signedIn(request);
      try {
        const id = await inFirmAs(db, { firmId, personId }, (tx) =>
          inviteNew(tx, read.value, { config, personId, now: now() }),
        );
        // What an auditor may see, and until when, is said next.
        return reply.redirect(isAuditor ? `/people/${id}/audit-access` : "/people", 303);
      } catch (error) {
        return showList(request, reply.code(422), typed, refusedFields(error));
      }
    },
  });

  app.post("/people/two-step-roles", {
    schema: { operationId: "twoStepRolesForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const roles = requireForm(z.array(z.enum(ROLES)), listOf(request.body.roles));
      await inFirm(db, signedIn(request).firmId, (tx) => setTwoStepRoles(tx, roles));
      return reply.redirect("/people", 303);
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
    const query = request.query as z.infer<typeof PageQuery>;
    const { name, role } = query;
    const asked = { name, role, sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
    const data = await inFirm(db, firmId, async (tx) => ({
      active: await sortedPeople(tx, asked),
      gone: await listPeople(tx, { active: false, most: GONE_MOST }),
      invited: await invitedPeople(tx, now()),
      wanted: await twoStepRoles(tx),
      auditUntil: addPeriod(await todayOfFirm(tx, now()), { days: DAYS_USUAL }),
    }));
    const { rows, list } = sortedPage(data.active, {
      ...{ path: PATH, columns: COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/people.csv",
    });
    return sendPage(request, reply, "people", {
      ...{ list, filter: { name, role }, filtered: (name ?? role) !== undefined },
      allRoles: roleChoices(language, []),
      title: say(language, "people.title"),
      typed: { auditUntil: data.auditUntil, ...typed },
      ...{ problems, gone: data.gone, isOwner: roles.includes("owner") },
      mayGiveAccess: roles.some((role) => role === "owner" || role === "manager"),
      people: rows.map((person) => listed(person, data.invited, language)),
      roleChoices: roleChoices(language, listOf(typed.roles)),
      twoStepChoices: roleChoices(language, data.wanted),
    });
  }
};

const roleNames = (roles: readonly string[], language: FastifyRequest["language"]): string =>
  roles.map((role) => say(language, `role.${role as (typeof ROLES)[number]}`)).join(", ");

type Row = Awaited<ReturnType<typeof sortedPeople>>[number];

const listed = (
  person: Row,
  invited: ReadonlySet<string>,
  language: FastifyRequest["language"],
) => ({
  ...person,
  roleNames: roleNames(person.roles, language),
  isAuditor: isOnlyAuditor(person.roles),
  hasTwoStep: person.totpConfirmedAt !== null,
  isInvited: invited.has(person.id),
  neverIn: person.passwordHash === null,
});
