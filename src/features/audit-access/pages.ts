import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { addPeriod } from "../../domain/dates/period.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, listOf, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { findPerson } from "../people/store.ts";
import { accessOfForm, readAccessForm } from "./form-access.ts";
import { endAccess, giveAccess } from "./give-access.ts";
import { DAYS_USUAL, MODELS_MOST } from "./schemas.ts";
import { namedScope } from "./scope-words.ts";
import { shownAccess } from "./shown.ts";
import { isOnlyAuditor, listAccesses, modelChoices } from "./store.ts";

const ACCESSES_SHOWN = 20;
const PATH = "/people/:id/audit-access";
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));

/** What one auditor may see and until when, for owner and manager. */
export const auditAccessPages: Feature = async (app, { db, liveness, now }) => {
  app.get(PATH, {
    schema: { operationId: "auditAccessPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply),
  });

  app.post(PATH, {
    schema: { operationId: "giveAuditAccessForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const read = readAccessForm(typed);
      if (!read.ok) return show(request, reply.code(422), typed, read.problems);
      const { firmId, personId } = signedIn(request);
      try {
        await inFirm(db, firmId, async (tx) =>
          giveAccess(tx, id, await accessOfForm(tx, read.value), { personId, now: now() }),
        );
      } catch (error) {
        return show(request, reply.code(422), typed, refusedFields(error));
      }
      liveness.forget();
      return reply.redirect(`/people/${id}/audit-access`, 303);
    },
  });

  app.post(`${PATH}/withdraw`, {
    schema: { operationId: "withdrawAuditAccessForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) => endAccess(tx, id, { personId, now: now() }));
      liveness.forget();
      return reply.redirect(`/people/${id}/audit-access`, 303);
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
    const found = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const person = await findPerson(tx, id);
      if (!person) throw notFound("person");
      const rows = await listAccesses(tx, id, ACCESSES_SHOWN);
      const accesses = [];
      for (const row of rows) accesses.push({ row, named: await namedScope(tx, row) });
      const today = await todayOfFirm(tx, now());
      return { person, accesses, today, models: await modelChoices(tx, MODELS_MOST) };
    });
    const shown = found.accesses.map((access) => shownAccess(access, found.today, language));
    const [latest] = shown;
    const usual = {
      ...{ outside: "true", from: found.today },
      until: addPeriod(found.today, { days: DAYS_USUAL }),
    };
    const values: FormBody = typed ?? usual;
    return sendPage(request, reply, "audit-access", {
      title: say(language, "access.title", { name: found.person.name }),
      ...{ id, problems, typed: values, latest, earlier: shown.slice(1), daysUsual: DAYS_USUAL },
      isAuditor: isOnlyAuditor(found.person.roles),
      models: found.models.map(({ id: value, code, name }) => ({
        ...{ value, text: `${code} ${name}`, ticked: listOf(values.models).includes(value) },
      })),
    });
  }
};
