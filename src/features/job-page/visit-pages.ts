import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, listOf, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { listCrews } from "../crews/store.ts";
import { findJob } from "../jobs/store.ts";
import { bookableInstruments } from "../new-job/store.ts";
import { readVisit, visitProblems } from "../new-job/visit-form.ts";
import {
  bookVisit,
  callOff,
  readVisit as findVisit,
  tellingConflicts,
} from "../visits/book-visit.ts";

const CHOICES_MOST = 200;
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const CancelParams = IdParams.extend({ visitId: z.guid() });
const AT_FIRST = { from: "08:30", to: "16:00" };

export const jobVisitPages: Feature = async (app, { db }) => {
  const show = async (
    request: FastifyRequest,
    reply: FastifyReply,
    { typed, problems }: { typed: FormBody; problems?: FieldProblems },
  ) => {
    const { id } = request.params as { id: string };
    const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const job = await findJob(tx, id);
      if (!job) throw notFound("job");
      return {
        job,
        crews: await listCrews(tx, { active: true, most: CHOICES_MOST }),
        instruments: await bookableInstruments(tx, CHOICES_MOST),
      };
    });
    return sendPage(request, reply, "job-visit", {
      title: say(request.language, "job.bookVisit"),
      job: data.job,
      crews: data.crews.map((crew) => ({ value: crew.id, text: crew.name })),
      instruments: data.instruments.map((one) => ({
        ...one,
        ticked: listOf(typed.instrumentIds).includes(one.id),
      })),
      typed,
      problems,
    });
  };

  app.get("/jobs/:id/visits/new", {
    schema: { operationId: "newVisitPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, { typed: AT_FIRST }),
  });

  app.post("/jobs/:id/visits", {
    schema: { operationId: "bookVisitForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed: FormBody = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { typed, problems });
      const read = readVisit(typed);
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      try {
        await tellingConflicts(db, session.firmId, (wanted) =>
          inFirmAs(db, session, (tx) => bookVisit(tx, id, read.visit, wanted)),
        );
      } catch (error) {
        return again(visitProblems(refusedFields(error)));
      }
      return reply.redirect(`/jobs/${id}#visits`, 303);
    },
  });

  app.post("/jobs/:id/visits/:visitId/cancellation", {
    schema: { operationId: "cancelVisitForm", hide: true, params: CancelParams },
    handler: async (request, reply) => {
      const { id, visitId } = request.params;
      const wasTaken = await inFirmAs(db, signedIn(request), async (tx) => {
        const before = await findVisit(tx, visitId);
        if (before.jobId !== id) throw notFound("visit");
        await callOff(tx, visitId);
        return before.bookings.flatMap(({ instrumentId }) => instrumentId ?? []).join(",");
      });
      const undo = new URLSearchParams({ calledOff: visitId, wasTaken });
      return reply.redirect(`/jobs/${id}?${undo}#visits`, 303);
    },
  });
};
