import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { type FirmTransaction, inFirm, inFirmAs } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, plainDate } from "../../web/fields.ts";
import { plansWork } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { orRefusal, sayRefusal } from "../changes/or-refusal.ts";
import { todayOfFirm } from "../firms/today.ts";
import type { JOB_STATES } from "../jobs/schemas.ts";
import { findSite } from "../sites/store.ts";
import { changeRecurring, restoreRecurring, takeRecurringBack } from "./keep-recurring.ts";
import { RECURRING_COLUMNS, recurringIds, recurringOf } from "./page-store.ts";
import { NewRecurringInspection } from "./schemas.ts";
import { type Recurring, shown } from "./shown.ts";
import { findRecurring } from "./store.ts";

const PATH = "/recurring-inspections";
const Query = z.object({
  ...sortedQuery(RECURRING_COLUMNS),
  siteId: asked(z.guid()),
  ended: asked(z.stringbool()),
  dueBefore: asked(plainDate()),
  /** One that was paused or taken up again just now. */
  done: asked(z.guid()),
});
const Pause = z.object({ version: z.coerce.number().int(), ended: z.stringbool() });
const Removed = NewRecurringInspection.extend({
  id: z.guid(),
  everyMonths: z.coerce.number().pipe(NewRecurringInspection.shape.everyMonths),
  horizonDays: z.coerce.number().pipe(NewRecurringInspection.shape.horizonDays.unwrap()),
});

export const recurringInspectionPages: Feature = async (app, { db, now }) => {
  const show = async (
    request: FastifyRequest,
    reply: FastifyReply,
    query: z.infer<typeof Query>,
    removed?: Recurring,
  ) => {
    const { language } = request;
    const { done, ...rest } = query;
    const { siteId, ended = false, dueBefore } = rest;
    const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const site = siteId ? await findSite(tx, siteId) : null;
      const one = done ? await findRecurring(tx, done) : null;
      return {
        ...(await listOf(tx, rest, await todayOfFirm(tx, now()), language)),
        site: site && { id: site.id, reference: site.reference, addressLine: site.addressLine },
        done: one && shown(one),
      };
    });
    return sendPage(request, reply, "recurring-inspections", {
      title: say(language, "recurring.title"),
      ...{ ...page, removed, filter: { siteId, ended, dueBefore }, styles: ["registry", "hours"] },
      filtered: ended || dueBefore !== undefined || siteId !== undefined,
      mayEdit: plansWork(request),
    });
  };

  app.get(PATH, {
    schema: { operationId: "recurringInspectionsPage", hide: true, querystring: Query },
    handler: async (request, reply) => show(request, reply, request.query),
  });

  app.post(`${PATH}/:id/pause`, {
    schema: {
      operationId: "pauseRecurringForm",
      hide: true,
      params: IdParams,
      body: Pause,
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { version, ended } = request.body;
      return orRefusal(request, reply, PATH, async () => {
        await inFirmAs(db, signedIn(request), (tx) =>
          changeRecurring(tx, id, version, { ended }, now()),
        );
        return `${PATH}?done=${id}`;
      });
    },
  });

  app.post(`${PATH}/:id/removal`, {
    schema: { operationId: "removeRecurringForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      let removed: Recurring | undefined;
      try {
        removed = await inFirmAs(db, signedIn(request), async (tx) =>
          (await findRecurring(tx, id)) ? shown(await takeRecurringBack(tx, id)) : undefined,
        );
      } catch (error) {
        return sayRefusal(request, reply, PATH, error);
      }
      // Sent a second time, there is nothing left to take back.
      if (!removed) return reply.redirect(PATH, 303);
      return show(request, reply, {}, removed);
    },
  });

  app.post(`${PATH}/restoration`, {
    schema: { operationId: "restoreRecurringForm", hide: true, body: Removed },
    handler: async (request, reply) =>
      orRefusal(request, reply, PATH, async () => {
        const session = signedIn(request);
        await inFirmAs(db, session, (tx) => restoreRecurring(tx, request.body, session.personId));
        return PATH;
      }),
  });
};

async function listOf(
  tx: FirmTransaction,
  query: Omit<z.infer<typeof Query>, "done">,
  today: string,
  language: ShownLanguage,
) {
  const { siteId, ended = false, dueBefore } = query;
  const sorting = sortingOf(query, "nextDueOn");
  const found = await recurringIds(tx, { siteId, ended, dueBefore, sorting, most: A_PAGE + 1 });
  const { rows, list } = sortedPage(found, {
    ...{ path: PATH, columns: RECURRING_COLUMNS, usual: "nextDueOn", query },
  });
  const ids = rows.map(({ id }) => id);
  return {
    list,
    rows: (await recurringOf(tx, ids)).map((row) => lineOf(shown(row), today, language)),
  };
}

const lineOf = (row: Recurring, today: string, language: ShownLanguage) => ({
  ...row,
  due: plainDay(language, row.nextDueOn),
  opens: plainDay(language, row.nextOpensOn),
  every: say(language, "recurring.every", { months: row.everyMonths }),
  isOver: !row.ended && row.nextDueOn < today,
  lastState:
    row.lastJob && say(language, `job.state.${row.lastJob.state as (typeof JOB_STATES)[number]}`),
});
