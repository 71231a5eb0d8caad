// What the customer sees by a link, without an account. The address is a secret: it stays out of
// the log, and search engines are told to leave it alone.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { isLanguage, type Language } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { answerIn } from "../../web/language.ts";
import { sendPage } from "../../web/page.ts";
import { slowDown } from "../../web/slow-down.ts";
import { readJob } from "../close-out/store.ts";
import { readFirm } from "../firms/store.ts";
import { makeCommissioningRecord, makeHandoverPack } from "../papers/make-paper.ts";
import { sendPdf } from "../papers/send-pdf.ts";
import { keepOpening, openLink } from "./make-link.ts";
import type { LinkRow } from "./store.ts";

const ASKED_A_MINUTE = 30;
const Params = z.object({ firmId: z.string(), id: z.string(), secret: z.string() });
const Link = z.object({ firmId: z.guid(), id: z.guid(), secret: z.string().length(43) });
const HIDDEN = { hide: true, params: Params } as const;

export const handoverPublicPages: Feature = async (app, context) => {
  const { db, now } = context;
  const slow = slowDown("A network", ASKED_A_MINUTE);

  const opened = async (request: FastifyRequest, reply: FastifyReply) => {
    const at = now();
    slow(request.ip, at.getTime());
    reply.header("x-robots-tag", "noindex, nofollow, noarchive");
    const parsed = Link.safeParse(request.params);
    if (!parsed.success) throw gone();
    const { firmId } = parsed.data;
    const link = await inFirm(db, firmId, (tx) => openLink(tx, parsed.data, at));
    if (!link) throw gone();
    const language: Language = isLanguage(link.language) ? link.language : "en";
    return { link, language, address: `/handover/${firmId}/${link.id}/${parsed.data.secret}` };
  };
  const keep = ({ firmId, id }: LinkRow) => inFirm(db, firmId, (tx) => keepOpening(tx, id, now()));

  app.get("/handover/:firmId/:id/:secret", {
    schema: { operationId: "handoverPage", ...HIDDEN },
    handler: async (request, reply) => {
      const { link, language, address } = await opened(request, reply);
      const { firm, job } = await inFirm(db, link.firmId, async (tx) => ({
        firm: await readFirm(tx),
        job: await readJob(tx, link.jobId),
      }));
      answerIn(request, language);
      return sendPage(request, reply, "handover", {
        title: say(request.language, "handover.title", { firm: firm.name }),
        ...{ address, reference: job?.reference, isReopened: job?.state !== "closed" },
        until: plainDay(request.language, link.expiresAt.toISOString().slice(0, 10)),
      });
    },
  });

  app.get("/handover/:firmId/:id/:secret/handover-pack.pdf", {
    schema: { operationId: "handoverPackByLink", ...HIDDEN },
    handler: async (request, reply) => {
      const { link, language } = await opened(request, reply);
      const paper = await makeHandoverPack(context, { ...link, language });
      await keep(link);
      return sendPdf(reply, paper);
    },
  });

  app.get("/handover/:firmId/:id/:secret/commissioning-record.pdf", {
    schema: { operationId: "commissioningRecordByLink", ...HIDDEN },
    handler: async (request, reply) => {
      const { link, language } = await opened(request, reply);
      const paper = await makeCommissioningRecord(context, { ...link, language });
      await keep(link);
      return sendPdf(reply, paper);
    },
  });
};

const gone = (): Problem =>
  new Problem("not-found", "This link opens nothing any more. Ask the firm for a new one.");
