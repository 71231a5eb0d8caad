import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FormBody, readForm, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { todayOfFirm } from "../firms/today.ts";
import { allPeriods, overBefore } from "./retention.ts";
import { MONTHS_MOST, RETENTION_KINDS, Retention } from "./schemas.ts";
import { shownErasure } from "./shown.ts";
import { listArchivedBefore, listErasures, putRetention } from "./store.ts";

const Query = z.object({ saved: z.string().max(1).optional() });
const ROWS_MOST = 100;

export const privacyPages: Feature = async (app, { db, now }) => {
  app.get("/privacy", {
    schema: { operationId: "privacyPage", hide: true, querystring: Query },
    handler: async (request, reply) => show(request, reply, { saved: request.query.saved }),
  });

  app.post("/privacy", {
    schema: { operationId: "putRetentionForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const given = RETENTION_KINDS.map((kind) => [kind, typed[kind] || null]);
      const read = readForm(Retention, Object.fromEntries(given));
      if (!read.ok) return show(request, reply.code(422), { typed, problems: read.problems });
      await inFirm(db, signedIn(request).firmId, (tx) => putRetention(tx, read.value));
      return reply.redirect("/privacy?saved=1", 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    form: { saved?: string | undefined; typed?: FormBody; problems?: Record<string, string> },
  ) {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const mayEdit = roles.includes("owner");
    const page = await inFirm(db, firmId, async (tx) => ({
      periods: await allPeriods(tx),
      erasures: await erasuresFor(tx, language),
      old: mayEdit ? await oldCustomers(tx, language, now()) : [],
    }));
    const kinds = RETENTION_KINDS.map((kind) => ({
      ...{ kind, label: say(language, `privacy.kind.${kind}`) },
      hint: say(language, `privacy.hint.${kind}`),
      value: form.typed ? form.typed[kind] : page.periods[kind],
      problem: form.problems?.[kind],
    }));
    return sendPage(request, reply, "privacy", {
      ...{ title: say(language, "privacy.title"), ...page, kinds, mayEdit, most: MONTHS_MOST },
      ...{ saved: form.saved !== undefined, problems: form.problems },
    });
  }
};

async function erasuresFor(tx: FirmTransaction, language: ShownLanguage) {
  const { timeZone } = await readFirm(tx);
  const rows = await listErasures(tx, { most: ROWS_MOST });
  return rows.map((row) => ({
    ...shownErasure(row),
    when: dayAndTime(language, row.erasedAt, timeZone),
  }));
}

/** Customers that have been archived for longer than the firm keeps them. */
async function oldCustomers(tx: FirmTransaction, language: ShownLanguage, now: Date) {
  const { customers } = await allPeriods(tx);
  if (customers === null) return [];
  const { timeZone } = await readFirm(tx);
  const before = overBefore(await todayOfFirm(tx, now), customers, timeZone);
  const rows = await listArchivedBefore(tx, before, ROWS_MOST);
  return rows.map(({ archivedAt, ...row }) => ({
    ...row,
    archived: archivedAt && plainDay(language, archivedAt.toISOString().slice(0, 10)),
  }));
}
