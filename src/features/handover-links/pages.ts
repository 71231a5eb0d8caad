import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { LANGUAGE_NAMES, LANGUAGES } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, readForm, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { baseUrlOf } from "../calendar/new-address.ts";
import { readJob } from "../close-out/store.ts";
import { mailHost } from "../mail/post.ts";
import { endLink, makeLink } from "./make-link.ts";
import { DAYS_USUAL, NewHandoverLink } from "./schemas.ts";
import { listLinks } from "./store.ts";

const LINKS_SHOWN = 50;
const LinkForm = NewHandoverLink.extend({ mail: z.literal("true").optional() });
const EndParams = IdParams.extend({ linkId: z.guid() });

interface Shown {
  url?: string;
  typed?: Readonly<Record<string, string>>;
  problems?: FieldProblems;
}

export const handoverLinkPages: Feature = async (app, { db, config, now }) => {
  app.get("/jobs/:id/handover", {
    schema: { operationId: "jobHandoverPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, request.params.id, {}),
  });

  // The answer to the post shows the link: it is nowhere to be read again.
  app.post("/jobs/:id/handover", {
    schema: {
      ...{ operationId: "makeHandoverLinkForm", hide: true },
      ...{ params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const typed = request.body;
      const read = readForm(LinkForm, typed);
      if (!read.ok) {
        return show(request, reply.code(422), id, { typed, problems: read.problems });
      }
      const session = signedIn(request);
      const wish = { ...read.value, mail: read.value.mail === "true" };
      const ground = { host: mailHost(config), now: now(), personId: session.personId };
      const baseUrl = baseUrlOf(config, request);
      try {
        const { url } = await inFirmAs(db, session, (tx) =>
          makeLink(tx, id, wish, { ...ground, baseUrl }),
        );
        return show(request, reply, id, { url });
      } catch (error) {
        const problems = refusedFields(error);
        return show(request, reply.code(409), id, { typed, problems });
      }
    },
  });

  app.post("/jobs/:id/handover/:linkId/end", {
    schema: { operationId: "endHandoverLinkForm", hide: true, params: EndParams },
    handler: async (request, reply) => {
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      const jobId = await inFirmAs(db, session, (tx) => endLink(tx, request.params.linkId, by));
      return reply.redirect(`/jobs/${jobId}/handover`, 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    { url, typed = {}, problems }: Shown,
  ) {
    const { language } = request;
    const { job, rows } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      job: await readJob(tx, id),
      rows: await listLinks(tx, id, { most: LINKS_SHOWN }),
    }));
    if (!job) throw notFound("job");
    const at = (time: Date) => dayAndTime(language, time, job.site.timeZone);
    const { customer } = job.site;
    return sendPage(request, reply, "job-handover", {
      title: say(language, "handover.jobTitle", { job: job.reference }),
      ...{ job, url, typed, problems, isClosed: job.state === "closed" },
      days: typed.days ?? String(DAYS_USUAL),
      mailTo: customer.emailFailingAt === null ? customer.email : null,
      languages: LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] })),
      links: rows.map((row) => ({
        ...{ id: row.id, by: row.createdBy.name, made: at(row.createdAt), opened: row.opened },
        ...{ until: at(row.expiresAt), mailed: row.mailId !== null },
        last: row.openedAt && at(row.openedAt),
        ended: row.revokedAt && at(row.revokedAt),
        isLive: row.revokedAt === null && row.expiresAt > now(),
      })),
    });
  }
};
