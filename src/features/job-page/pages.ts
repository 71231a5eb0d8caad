import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { type FirmTransaction, inFirm, inFirmAs } from "../../db/scope.ts";
import { plainDay } from "../../language/moments.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, longText, plainDate } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { type SignedIn, signedIn } from "../../web/session.ts";
import { closeOutJob, reopen } from "../close-out/close-job.ts";
import { grantConcession, revoke } from "../concessions/grant-concession.ts";
import { calledOffVisit } from "../diary/at-hand.ts";
import { NewMessage } from "../messages/schemas.ts";
import { markSeen } from "../messages/store.ts";
import { writeMessage } from "../messages/write-message.ts";
import { raiseSnag } from "../snags/keep-snag.ts";
import { NewSnag } from "../snags/schemas.ts";
import { readJobPage } from "./read-page.ts";
import { jobView } from "./view.ts";

const FormFields = z.record(z.string(), z.string().max(20_000));
const Concession = z.object({
  itemId: z.string().max(48),
  subject: z.string().max(64).default(""),
  reason: longText(2000),
  expiresOn: plainDate().optional(),
});
/** What was just called off, so that the page offers to take it back. */
const JobQuery = z.object({
  calledOff: z.guid().optional(),
  wasTaken: z.string().max(2000).default(""),
});
const Reason = z.object({ reason: longText(2000) });
const RevocationParams = IdParams.extend({ concessionId: z.guid() });

/** A form of the page that needs another look: which one, what was typed, what is wrong. */
export interface FailedForm {
  name: string;
  typed: FormBody;
  problems: FieldProblems;
}

export const jobPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, failed?: FailedForm) => {
    const { firmId, personId, roles } = signedIn(request);
    const { id } = request.params as { id: string };
    const data = await inFirm(db, firmId, async (tx) => {
      const page = await readJobPage(tx, id, personId, now());
      // What is on the page has been read; an auditor leaves no trace but the one of looking.
      if (page.standing.unread > 0) await markSeen(tx, id, personId, page.standing.last);
      const { calledOff, wasTaken } = JobQuery.parse(request.query);
      const visit = calledOff && (await calledOffVisit(tx, calledOff, wasTaken));
      return { ...page, calledOff: visit && visit.jobId === id ? visit : undefined };
    });
    return sendPage(request, reply, "job", {
      title: `${data.job.reference} ${data.job.title}`,
      styles: ["job"],
      scripts: ["photo-viewer"],
      ...jobView(data, roles, request.language),
      failed,
      calledOff: data.calledOff && {
        ...data.calledOff,
        on: plainDay(request.language, data.calledOff.day),
      },
      problem: failed && (failed.problems[""] ?? Object.values(failed.problems)[0]),
    });
  };

  app.get("/jobs/:id", {
    schema: { operationId: "jobPage", hide: true, params: IdParams, querystring: JobQuery },
    handler: async (request, reply) => show(request, reply),
  });

  /** Reads the form, does the act, and comes back to its part of the page, or shows it again. */
  const form =
    <Schema extends z.ZodType>(
      name: string,
      schema: Schema,
      act: (
        tx: FirmTransaction,
        jobId: string,
        value: z.output<Schema>,
        session: SignedIn,
        request: FastifyRequest,
      ) => Promise<unknown>,
    ) =>
    async (request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> => {
      const { id } = request.params as { id: string };
      const typed = (request.body ?? {}) as FormBody;
      const read = readForm(schema, typed);
      if (!read.ok) {
        return show(request, reply.code(422), { name, typed, problems: read.problems });
      }
      const session = signedIn(request);
      try {
        await inFirmAs(db, session, (tx) => act(tx, id, read.value, session, request));
      } catch (error) {
        const problems = refusedFields(error);
        return show(request, reply.code(422), { name, typed, problems });
      }
      return reply.redirect(`/jobs/${id}${name === "" ? "" : `#${name}`}`, 303);
    };

  app.post("/jobs/:id/close-out", {
    schema: { operationId: "closeOutForm", hide: true, params: IdParams },
    // What stands in the way is on the page that the redirect shows.
    handler: form("", z.object({}), (tx, id, _value, { personId }) =>
      closeOutJob(tx, id, personId, now()),
    ),
  });

  app.post("/jobs/:id/concessions", {
    schema: { operationId: "concessionForm", hide: true, params: IdParams, body: FormFields },
    handler: form("concede", Concession, (tx, jobId, { expiresOn, ...fields }, { personId }) =>
      grantConcession(tx, { jobId, grantedById: personId, expiresOn, ...fields }, now()),
    ),
  });

  app.post("/jobs/:id/concessions/:concessionId/revocation", {
    schema: { operationId: "revokeConcessionForm", hide: true, params: RevocationParams },
    handler: form("concessions", z.object({}), (tx, jobId, _value, { personId }, request) => {
      const { concessionId } = request.params as z.infer<typeof RevocationParams>;
      return revoke(tx, jobId, concessionId, personId, now());
    }),
  });

  app.post("/jobs/:id/reopening", {
    schema: { operationId: "reopeningForm", hide: true, params: IdParams, body: FormFields },
    handler: form("reopening", Reason, (tx, id, { reason }, { personId }) =>
      reopen(tx, id, personId, reason, now()),
    ),
  });

  app.post("/jobs/:id/messages", {
    schema: { operationId: "messageForm", hide: true, params: IdParams, body: FormFields },
    handler: form("messages", NewMessage, (tx, jobId, { text }, { personId }) =>
      writeMessage(tx, { jobId, text, personId, fromTablet: false }, now()),
    ),
  });

  app.post("/jobs/:id/snags", {
    schema: { operationId: "snagForm", hide: true, params: IdParams, body: FormFields },
    handler: form("snags", NewSnag, (tx, jobId, fields, { personId }) =>
      raiseSnag(tx, jobId, fields, personId, now()),
    ),
  });
};
