import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, typedText } from "../../web/fields.ts";
import { type FieldProblems, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { toldByOffice } from "../visit-mails/pending.ts";
import { actOnMail, MAIL_ACTIONS } from "./change-mail.ts";
import { clearFailingAddress } from "./failing-address-store.ts";
import { mailView, stateLinks } from "./mail-view.ts";
import { readOutbox } from "./outbox-page.ts";
import { findMail, MAIL_STATES } from "./outbox-store.ts";
import { clockOf } from "./shown.ts";
import { MAIL_COLUMNS } from "./sorted-store.ts";
import { MAIL_KINDS } from "./store.ts";
import { takeBounce } from "./take-bounce.ts";

const PATH = "/outbox";
const USUAL = "-written";
const REPORT_MOST = 60_000;
const Query = z.object({
  ...sortedQuery(MAIL_COLUMNS),
  state: asked(z.enum(MAIL_STATES)),
  kind: asked(z.enum(MAIL_KINDS)),
  recipient: asked(typedText(254)),
});
type Query = z.infer<typeof Query>;

interface Told {
  problems?: FieldProblems;
  report?: string;
  taken?: string;
}

const mayAct = (request: FastifyRequest): boolean =>
  signedIn(request).roles.some((role) => role === "owner" || role === "office");

export const outboxPages: Feature = async (app, { db, config, now }) => {
  const showList = async (
    request: FastifyRequest,
    reply: FastifyReply,
    query: Query,
    told: Told = {},
  ) => {
    const { language } = request;
    const { sort: _sort, cursor: _cursor, ...filter } = query;
    const question = { filter, sorting: sortingOf(query, USUAL), now: now(), config };
    const found = await inFirm(db, signedIn(request).firmId, (tx) =>
      readOutbox(tx, question, language),
    );
    const { counts, mails, ...lists } = found;
    const { rows, list } = sortedPage(mails, {
      ...{ path: PATH, columns: MAIL_COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/mails.csv",
    });
    return sendPage(request, reply, "outbox", {
      title: say(language, "outbox.title"),
      ...{ ...lists, ...told, mails: rows, list, filter },
      states: stateLinks(counts, filter, language),
      kinds: MAIL_KINDS.map((value) => ({
        ...{ value, text: say(language, `outbox.kind.${value}`), chosen: value === filter.kind },
      })),
      filtered: Object.values(filter).some((value) => value !== undefined),
      noServer: config.SMTP_URL === undefined,
      mayAct: mayAct(request),
      reportMost: REPORT_MOST,
    });
  };

  const showMail = async (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    problems?: FieldProblems,
  ) => {
    const { language } = request;
    const mail = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const row = await findMail(tx, id);
      if (!row) throw notFound("mail");
      return mailView(row, await clockOf(tx, now(), config), language);
    });
    const data = { title: mail.subject, mail, problems, mayAct: mayAct(request) };
    return sendPage(request, reply, "outbox-mail", data);
  };

  app.get(PATH, {
    schema: { operationId: "outboxPage", hide: true, querystring: Query },
    handler: async (request, reply) => showList(request, reply, request.query),
  });

  app.get("/outbox/:id", {
    schema: { operationId: "outboxMailPage", hide: true, params: IdParams },
    handler: async (request, reply) => showMail(request, reply, request.params.id),
  });

  app.post("/outbox/:id/:action", {
    schema: {
      operationId: "mailActionForm",
      hide: true,
      params: IdParams.extend({ action: z.enum(MAIL_ACTIONS) }),
    },
    handler: async (request, reply) => {
      const { id, action } = request.params;
      try {
        await inFirm(db, signedIn(request).firmId, (tx) => actOnMail(tx, id, action, now()));
      } catch (error) {
        return showMail(request, reply.code(409), id, refusedFields(error));
      }
      return reply.redirect(`/outbox/${id}`, 303);
    },
  });

  app.post("/outbox/tellings/:id/known", {
    schema: { operationId: "visitKnownForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      await inFirm(db, signedIn(request).firmId, (tx) =>
        toldByOffice(tx, request.params.id, now()),
      );
      return reply.redirect("/outbox", 303);
    },
  });

  app.post("/outbox/addresses/:id/mended", {
    schema: { operationId: "addressMendedForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      await inFirm(db, signedIn(request).firmId, (tx) =>
        clearFailingAddress(tx, request.params.id),
      );
      return reply.redirect("/outbox", 303);
    },
  });

  app.post("/outbox/bounces", {
    schema: {
      operationId: "mailBounceForm",
      hide: true,
      body: z.object({ report: z.string().max(REPORT_MOST) }),
    },
    handler: async (request, reply) => {
      const { report } = request.body;
      try {
        const { mailId } = await inFirm(db, signedIn(request).firmId, (tx) =>
          takeBounce(tx, report, now()),
        );
        return reply.redirect(`/outbox/${mailId}`, 303);
      } catch (error) {
        const problems = bounceProblems(error);
        return showList(request, reply.code(422), {}, { report, problems });
      }
    },
  });
};

/** A report about an unknown mail is a matter of the field, not of the page. */
function bounceProblems(error: unknown): FieldProblems {
  const isUnknown = error instanceof Problem && error.code === "not-found";
  const problems = isUnknown ? { "": error.message } : refusedFields(error);
  return { report: Object.values(problems)[0] ?? "" };
}
