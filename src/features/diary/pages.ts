import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FormBody, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { signedIn } from "../../web/session.ts";
import { readVisit, visitProblems } from "../new-job/visit-form.ts";
import { bookVisit, callOff, moveVisit, tellingConflicts } from "../visits/book-visit.ts";
import { findVisit } from "../visits/store.ts";
import { addressOf, DiaryPageQuery, placeOf } from "./page-address.ts";
import { showDiary } from "./show-diary.ts";

/** Instruments may stand several times. */
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const one = (value: FormBody[string]) => (typeof value === "string" ? value : undefined);

export const diaryPages: Feature = async (app, context) => {
  const { db } = context;

  app.get("/diary", {
    schema: { operationId: "diaryPage", hide: true, querystring: DiaryPageQuery },
    handler: async (request, reply) => showDiary(context, request, reply, { query: request.query }),
  });

  app.post("/diary/jobs/:id/visits", {
    schema: {
      ...{ operationId: "placeVisitForm", hide: true },
      ...{ params: IdParams, body: FormFields },
    },
    handler: async (request, reply) => {
      const { id: job } = request.params;
      const typed = request.body;
      const query = { ...placeOf(typed), job };
      const again = (problems: Readonly<Record<string, string>>, status: number) =>
        showDiary(context, request, reply.code(status), { query, typed, problems });
      const read = readVisit(typed);
      if (!read.ok) return again(read.problems, 422);
      const session = signedIn(request);
      try {
        const visit = await tellingConflicts(db, session.firmId, (wanted) =>
          inFirmAs(db, session, (tx) => bookVisit(tx, job, read.visit, wanted)),
        );
        return reply.redirect(
          addressOf({ ...placeOf(typed), day: one(typed.day), placed: visit.id }),
          303,
        );
      } catch (error) {
        return again(visitProblems(refusedFields(error)), 409);
      }
    },
  });

  app.post("/diary/visits/:id", {
    schema: {
      ...{ operationId: "moveVisitForm", hide: true },
      ...{ params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const { id: visit } = request.params;
      const typed = request.body;
      const query = { ...placeOf(typed), visit };
      const again = (problems: Readonly<Record<string, string>>, status: number) =>
        showDiary(context, request, reply.code(status), { query, typed, problems });
      const read = readVisit(typed);
      if (!read.ok) return again(read.problems, 422);
      const { crewId, local } = read.visit;
      const session = signedIn(request);
      try {
        const before = await tellingConflicts(db, session.firmId, (wanted) =>
          inFirmAs(db, session, async (tx) => {
            const row = await findVisit(tx, visit);
            await moveVisit(tx, visit, Number(typed.version), { crewId, local }, wanted);
            return row;
          }),
        );
        const was = before
          ? `${before.startsAt.toISOString()}/${before.endsAt.toISOString()}`
          : undefined;
        const moved = { moved: visit, was, wasCrew: before?.crewId };
        return reply.redirect(addressOf({ ...placeOf(typed), day: typed.day, ...moved }), 303);
      } catch (error) {
        return again(visitProblems(refusedFields(error)), 409);
      }
    },
  });

  app.post("/diary/visits/:id/cancellation", {
    schema: {
      ...{ operationId: "callOffVisitForm", hide: true },
      ...{ params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const taken = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const before = await findVisit(tx, id);
        await callOff(tx, id);
        return before?.bookings.flatMap(({ instrumentId }) => instrumentId ?? []);
      });
      const undo = { calledOff: id, wasTaken: taken?.join(",") };
      return reply.redirect(addressOf({ ...placeOf(request.body), ...undo }), 303);
    },
  });
};
