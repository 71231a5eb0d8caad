import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { VERDICTS } from "../../domain/corrective/follow-up.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  withBlank,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { listPeople } from "../people/store.ts";
import { checkEffect } from "./check-effect.ts";
import { listEffectChecks } from "./effect-store.ts";
import { followUp } from "./follow-up.ts";
import { NewEffectCheck, NonconformanceEdit } from "./schemas.ts";
import { findNonconformance } from "./store.ts";
import { kindName, shownChecks, shownFollowUp } from "./view.ts";

const PEOPLE_MOST = 200;
const FormFields = z.record(z.string(), z.string().max(5000));
const Edit = NonconformanceEdit.extend({ version: z.coerce.number().int() });
/** A form has one step's fields; one of them that is sent empty is taken back. */
const CLEARED = [
  ...(["containment", "cause", "correction", "ownerId", "dueOn"] as const),
  ...(["effectDueOn", "effectById"] as const),
];

export const nonconformanceOnePages: Feature = async (app, { db, now }) => {
  const whoOf = (request: FastifyRequest) => ({
    ...{ personId: signedIn(request).personId, language: request.language, now: now() },
  });

  app.get("/nonconformances/:id", {
    schema: { operationId: "nonconformancePage", hide: true, params: IdParams },
    handler: async (request, reply) => showOne(request, reply),
  });

  app.post("/nonconformances/:id", {
    schema: {
      operationId: "editNonconformanceForm",
      ...{ hide: true, params: IdParams, body: FormFields },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const read = readForm(Edit, typed);
      if (!read.ok) return showOne(request, reply.code(422), typed, read.problems);
      const { version, ...change } = read.value;
      const empty = CLEARED.filter((name) => typed[name] === "").map((name) => [name, null]);
      const edit = { ...Object.fromEntries(empty), ...change };
      try {
        await inFirm(db, signedIn(request).firmId, (tx) =>
          followUp(tx, { id, version }, edit, whoOf(request)),
        );
      } catch (error) {
        return showOne(request, reply.code(422), typed, refusedFields(error));
      }
      return reply.redirect(`/nonconformances/${id}`, 303);
    },
  });

  app.post("/nonconformances/:id/effect-checks", {
    schema: {
      operationId: "checkEffectForm",
      ...{ hide: true, params: IdParams, body: FormFields },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const read = readForm(NewEffectCheck, typed);
      if (!read.ok) return showOne(request, reply.code(422), typed, read.problems);
      try {
        await inFirm(db, signedIn(request).firmId, (tx) =>
          checkEffect(tx, id, read.value, whoOf(request)),
        );
      } catch (error) {
        return showOne(request, reply.code(422), typed, refusedFields(error));
      }
      return reply.redirect(`/nonconformances/${id}`, 303);
    },
  });

  async function showOne(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody = {},
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { id } = request.params as { id: string };
    const { roles, firmId } = signedIn(request);
    const { row, people, checks, timeZone } = await inFirm(db, firmId, async (tx) => ({
      row: await findNonconformance(tx, id),
      people: await listPeople(tx, { active: true, most: PEOPLE_MOST }),
      checks: await listEffectChecks(tx, id),
      timeZone: (await readFirm(tx)).timeZone,
    }));
    if (!row) throw notFound("nonconformance");
    const shown = shownFollowUp(row, language, localDay(now().toISOString(), timeZone));
    const names = new Map(people.map((person) => [person.id, person.name]));
    return sendPage(request, reply, "nonconformance", {
      title: `${row.reference} ${row.title}`,
      ...{ row, problems, ...shown, typed: { ...shown.asKept, ...typed } },
      kindName: kindName(language, row.kind),
      people: people.map((person) => ({ value: person.id, text: person.name })),
      effectBy: row.effectById && names.get(row.effectById),
      checks: shownChecks(checks, language, timeZone),
      verdicts: withBlank(
        VERDICTS.map((value) => ({
          value,
          text: say(language, `nonconformance.verdict.${value}`),
        })),
        typed.verdict,
      ),
      mayEdit: roles.some((role) => role === "owner" || role === "manager"),
    });
  }
};
