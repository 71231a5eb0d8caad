// One sample that was kept: its jobs in the order of the draw, ticked off as they are looked at.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { keepLook, readSample } from "./keep-sample.ts";
import { NewLook } from "./sample-schemas.ts";
import { sampleView } from "./sample-view.ts";

const Look = NewLook.extend({ jobId: z.guid() });
const LOOKERS: readonly string[] = ["owner", "manager", "auditor"];

export const auditSamplePages: Feature = async (app, { db, now }) => {
  app.get("/audits/:id", {
    schema: { operationId: "auditPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply),
  });

  app.post("/audits/:id/looks", {
    schema: { operationId: "auditLookForm", hide: true, params: IdParams, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const read = readForm(Look, request.body);
      if (!read.ok) return show(request, reply.code(422), request.body, read.problems);
      const { firmId, personId } = signedIn(request);
      const { id: sampleId } = request.params;
      try {
        const keeper = { personId, now: now() };
        await inFirm(db, firmId, (tx) => keepLook(tx, { sampleId, ...read.value }, keeper));
      } catch (error) {
        return show(request, reply.code(422), request.body, refusedFields(error));
      }
      return reply.redirect(`/audits/${sampleId}#job-${read.value.jobId}`, 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody = {},
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { id } = request.params as { id: string };
    const { firmId, roles } = signedIn(request);
    const { whole, timeZone } = await inFirm(db, firmId, async (tx) => ({
      whole: await readSample(tx, id),
      timeZone: (await readFirm(tx)).timeZone,
    }));
    const view = sampleView(whole, language, timeZone);
    return sendPage(request, reply, "audit", {
      title: view.sample.reference,
      ...{ ...view, problems, mayLook: roles.some((role) => LOOKERS.includes(role)) },
      jobs: view.jobs.map((job) =>
        job.jobId === typed.jobId ? { ...job, typed: typed.remark } : job,
      ),
      export: `/api/v1/exports/kept-audit-sample.csv?sampleId=${id}`,
    });
  }
};
