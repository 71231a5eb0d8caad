// Forms that make an inspection come round, and change how.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
  withBlank,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { findSiteChoices, publishedPlans, readSiteChoice } from "../new-job/store.ts";
import { changeRecurring, readRecurring, startRecurring } from "./keep-recurring.ts";
import { turnOf } from "./open-turn.ts";
import { NewRecurringInspection, RecurringInspectionEdit } from "./schemas.ts";
import { shown } from "./shown.ts";
import type { RecurringRow } from "./store.ts";

const PATH = "/recurring-inspections";
const SITES_MOST = 20;
const PLANS_MOST = 200;
const TURNS_SHOWN = 5;
const Query = z.object({ q: asked(z.string().trim().max(100)), siteId: asked(z.guid()) });
const whole = (schema: z.ZodType<number, number>) => z.coerce.number().pipe(schema);
const NUMBERS = {
  everyMonths: whole(NewRecurringInspection.shape.everyMonths),
  horizonDays: whole(NewRecurringInspection.shape.horizonDays.unwrap()),
};
const NewFields = NewRecurringInspection.extend(NUMBERS);
const EditFields = RecurringInspectionEdit.required()
  .omit({ ended: true })
  .extend({ ...NUMBERS, version: z.coerce.number().int() });

interface Failed {
  typed: FormBody;
  problems: FieldProblems;
}

export const recurringFormPages: Feature = async (app, { db, now }) => {
  const showNew = async (
    request: FastifyRequest,
    reply: FastifyReply,
    siteId: string,
    failed?: Failed,
  ) => {
    const { language } = request;
    const { site, plans } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      site: await readSiteChoice(tx, siteId),
      plans: await publishedPlans(tx, PLANS_MOST),
    }));
    if (!site) throw notFound("site");
    const typed = failed?.typed ?? { everyMonths: "12", horizonDays: "30" };
    return sendPage(request, reply, "recurring-form", {
      title: say(language, "recurring.newAt", { site: site.reference }),
      ...{ site, typed, problems: failed?.problems, plans: choicesOf(plans, typed.planId) },
      styles: ["registry"],
    });
  };

  app.get(`${PATH}/new`, {
    schema: { operationId: "newRecurringPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { q, siteId } = request.query;
      if (siteId) return showNew(request, reply, siteId);
      const sites = await inFirm(db, signedIn(request).firmId, (tx) =>
        findSiteChoices(tx, q, SITES_MOST),
      );
      const title = say(request.language, "recurring.new");
      return sendPage(request, reply, "recurring-new-site", { title, sites, q, styles: ["job"] });
    },
  });

  app.post(PATH, {
    schema: { operationId: "startRecurringForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const siteId = z.guid().safeParse(typed.siteId);
      if (!siteId.success) return reply.redirect(`${PATH}/new`, 303);
      const again = (problems: FieldProblems) =>
        showNew(request, reply.code(422), siteId.data, { typed, problems });
      const read = readForm(NewFields, typed);
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      try {
        await inFirmAs(db, session, (tx) => startRecurring(tx, read.value, session.personId));
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(`${PATH}?siteId=${siteId.data}`, 303);
    },
  });

  const showOne = async (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    failed?: Failed,
  ) => {
    const { language } = request;
    const { row, plans } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      row: await readRecurring(tx, id),
      plans: await publishedPlans(tx, PLANS_MOST),
    }));
    const one = shown(row);
    return sendPage(request, reply, "recurring-form", {
      title: `${one.title}, ${one.site.reference}`,
      ...{ id, site: one.site, heldUpBy: one.heldUpBy, styles: ["registry"] },
      ...{ typed: failed?.typed ?? typedOf(row), problems: failed?.problems },
      plans: choicesOf(plans, one.plan.id),
      turns: one.ended ? [] : nextTurns(row).map((day) => plainDay(language, day)),
    });
  };

  app.get(`${PATH}/:id`, {
    schema: { operationId: "recurringInspectionPage", hide: true, params: IdParams },
    handler: async (request, reply) => showOne(request, reply, request.params.id),
  });

  app.post(`${PATH}/:id`, {
    schema: {
      operationId: "editRecurringForm",
      hide: true,
      params: IdParams,
      body: SINGLE_FIELDS,
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        showOne(request, reply.code(422), id, { typed, problems });
      const read = readForm(EditFields, typed);
      if (!read.ok) return again(read.problems);
      const { version, ...change } = read.value;
      try {
        await inFirmAs(db, signedIn(request), async (tx) => {
          const before = shown(await readRecurring(tx, id));
          await changeRecurring(tx, id, version, changedOnly(before, change), now());
        });
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(PATH, 303);
    },
  });
};

/** A form posts every field; the rhythm counts anew only where its fields differ. */
function changedOnly(
  before: ReturnType<typeof shown>,
  { everyMonths, nextDueOn, ...rest }: Omit<z.infer<typeof EditFields>, "version">,
): RecurringInspectionEdit {
  const isSame = everyMonths === before.everyMonths && nextDueOn === before.nextDueOn;
  return isSame ? rest : { ...rest, everyMonths, nextDueOn };
}

const typedOf = (row: RecurringRow): FormBody => {
  const { title, plan, everyMonths, horizonDays, nextDueOn, version } = shown(row);
  return {
    ...{ title, planId: plan.id, nextDueOn, version: String(version) },
    ...{ everyMonths: String(everyMonths), horizonDays: String(horizonDays) },
  };
};

const nextTurns = (row: RecurringRow): string[] =>
  Array.from({ length: TURNS_SHOWN }, (_, at) => turnOf(row, row.nextNumber + at).dueOn);

const choicesOf = (
  plans: readonly { id: string; code: string; title: string }[],
  chosen: FormBody[string],
) =>
  withBlank(
    plans.map(({ id, code, title }) => ({ value: id, text: `${title} (${code})` })),
    chosen,
  );
