import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import { asKept } from "../../web/as-kept.ts";
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
import { signedIn } from "../../web/session.ts";
import { asksForVisit, readVisit, visitProblems } from "../new-job/visit-form.ts";
import { followUpSnag } from "../snags/follow-up-snag.ts";
import { mendSnag } from "../snags/mend-snag.ts";
import { NewFollowUp, NewMending } from "../snags/schemas.ts";
import { tellingConflicts } from "../visits/book-visit.ts";
import { type FailedSnagForm, readSnagPage, snagView } from "./snag-view.ts";

const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));

export const snagPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, failed?: FailedSnagForm) => {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const { id } = request.params as { id: string };
    const data = await inFirm(db, firmId, (tx) => readSnagPage(tx, id));
    return sendPage(request, reply, "snag", {
      title: asKept(language, data.snag.title),
      styles: ["job"],
      scripts: ["photo-viewer"],
      ...snagView(data, failed, roles, language),
    });
  };

  app.get("/snags/:id", {
    schema: { operationId: "snagPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply),
  });

  app.post("/snags/:id/mending", {
    schema: { operationId: "mendSnagForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed: FormBody = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { form: "mending", typed, problems });
      const read = readForm(NewMending, { note: typed.note, photos: listOf(typed.photos) });
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      try {
        await inFirmAs(db, session, (tx) => mendSnag(tx, id, read.value, session.personId, now()));
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(`/snags/${id}`, 303);
    },
  });

  app.post("/snags/:id/follow-up", {
    schema: { operationId: "followUpSnagForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed: FormBody = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { form: "follow-up", typed, problems });
      const visit = asksForVisit(typed) ? readVisit(typed) : undefined;
      if (visit?.ok === false) return again(visit.problems);
      const job = typed.planId ? { kind: typed.kind, planId: typed.planId } : undefined;
      const read = readForm(NewFollowUp, { job, visit: visit?.visit });
      if (!read.ok) return again({ "": say(request.language, "job.snag.visitOrJob") });
      const session = signedIn(request);
      try {
        await tellingConflicts(db, session.firmId, (wanted) =>
          inFirmAs(db, session, (tx) =>
            followUpSnag(tx, id, read.value, session.personId, now(), wanted),
          ),
        );
      } catch (error) {
        return again(visitProblems(refusedFields(error)));
      }
      return reply.redirect(`/snags/${id}`, 303);
    },
  });
};
