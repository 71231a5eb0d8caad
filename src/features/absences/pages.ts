import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { dateTime, IdParams } from "../../web/fields.ts";
import { readForm, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { readFirm } from "../firms/store.ts";
import { asFormProblems, bodyOf, refusedAbsence, typedOf } from "./absence-form.ts";
import { changeAbsence, enterAbsence, readAbsence, restoreAbsence } from "./enter-absence.ts";
import { bookingsOf, reasonChoices, type Shown, showMonth } from "./page-view.ts";
import { ABSENCE_REASONS, AbsenceEdit, NewAbsence } from "./schemas.ts";
import { shown } from "./shown.ts";
import { daysOf, spanOfMoments } from "./span.ts";
import { findAbsence, removeAbsence } from "./store.ts";

const Query = z.object({
  month: asked(z.string().regex(/^20\d\d-(0[1-9]|1[0-2])$/, "must be a month such as 2026-11")),
  cursor: z.string().max(1000).optional(),
});
const EditFields = z.object({ version: z.coerce.number().int() }).catchall(z.string().max(5000));
const Removed = z.object({
  ...{ id: z.guid(), personId: z.guid(), startsAt: dateTime(), endsAt: dateTime() },
  reason: z.enum(ABSENCE_REASONS),
  note: z
    .string()
    .max(200)
    .transform((text) => text || null),
});

export const absencePages: Feature = async (app, context) => {
  const { db } = context;
  const monthPath = (day: string) => `/absences?month=${day.slice(0, 7)}`;

  app.get("/absences", {
    schema: { operationId: "absencesPage", hide: true, querystring: Query },
    handler: async (request, reply) =>
      showMonth(context, request, reply, { asked: request.query, typed: {} }),
  });

  app.post("/absences", {
    schema: { operationId: "enterAbsenceForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const { firmId } = signedIn(request);
      const again = (state: Partial<Shown>) =>
        showMonth(context, request, reply.code(422), {
          asked: { month: /^20\d\d-(0[1-9]|1[0-2])(?=-)/.exec(typed.from ?? "")?.[0] },
          ...{ typed, ...state },
        });
      const { timeZone } = await inFirm(db, firmId, readFirm);
      const read = readForm(NewAbsence, bodyOf(typed, timeZone));
      if (!read.ok) return again({ problems: asFormProblems(read.problems) });
      try {
        const row = await inFirmAs(db, signedIn(request), (tx) => enterAbsence(tx, read.value));
        return reply.redirect(monthPath(shown(row, timeZone).from), 303);
      } catch (error) {
        return again(refusedAbsence(error));
      }
    },
  });

  app.post("/absences/restoration", {
    schema: { operationId: "restoreAbsenceForm", hide: true, body: Removed },
    handler: async (request, reply) =>
      orRefusal(request, reply, "/absences", async () => {
        const { startsAt, endsAt, ...rest } = request.body;
        return inFirmAs(db, signedIn(request), async (tx) => {
          const { timeZone } = await readFirm(tx);
          const span = spanOfMoments({ startsAt, endsAt });
          await restoreAbsence(tx, { ...rest, ...span });
          return monthPath(daysOf(span, timeZone).from);
        });
      }),
  });

  const showOne = async (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    state?: Shown,
  ) => {
    const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const { timeZone } = await readFirm(tx);
      const absence = shown(await readAbsence(tx, id), timeZone);
      return {
        ...{ absence, typed: typedOf(absence, timeZone) },
        back: monthPath(absence.from),
        bookings: await bookingsOf(tx, state?.booked ?? []),
      };
    });
    return sendPage(request, reply, "absence", {
      title: say(request.language, "absences.of", { name: page.absence.person.name }),
      ...{ ...page, ...state, styles: ["registry", "hours"] },
      reasons: reasonChoices(request.language),
    });
  };

  app.get("/absences/:id", {
    schema: { operationId: "absencePage", hide: true, params: IdParams },
    handler: async (request, reply) => showOne(request, reply, request.params.id),
  });

  app.post("/absences/:id", {
    schema: { operationId: "editAbsenceForm", hide: true, params: IdParams, body: EditFields },
    handler: async (request, reply) => {
      const { version, ...fields } = request.body;
      const typed = { ...fields, version: String(version) };
      const { id } = request.params;
      const again = (state: Partial<Shown>) =>
        showOne(request, reply.code(422), id, { typed, ...state });
      const { timeZone } = await inFirm(db, signedIn(request).firmId, readFirm);
      const read = readForm(AbsenceEdit, bodyOf(fields, timeZone));
      if (!read.ok) return again({ problems: asFormProblems(read.problems) });
      try {
        const row = await inFirmAs(db, signedIn(request), (tx) =>
          changeAbsence(tx, id, version, read.value),
        );
        return reply.redirect(monthPath(shown(row, timeZone).from), 303);
      } catch (error) {
        return again(refusedAbsence(error));
      }
    },
  });

  app.post("/absences/:id/removal", {
    schema: { operationId: "removeAbsenceForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const removed = await inFirmAs(db, signedIn(request), async (tx) => {
        const row = await findAbsence(tx, id);
        if (row) await removeAbsence(tx, id);
        return row && shown(row, (await readFirm(tx)).timeZone);
      });
      // Sent a second time, there is nothing left to take back.
      if (!removed) return reply.redirect("/absences", 303);
      const month = removed.from.slice(0, 7);
      return showMonth(context, request, reply, { asked: { month }, typed: {}, removed });
    },
  });
};
