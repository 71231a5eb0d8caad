import type { FastifyRequest } from "fastify";
import { z } from "zod";
import { transactionQuery } from "../../db/query.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import type { MessageKey } from "../../language/catalogue.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { planOfJob } from "../job-record/plan-store.ts";
import { applyHeld, dismissHeld, type HeldRow } from "./decide-held.ts";
import { Dismissal, HeldParams } from "./held-schemas.ts";
import { shownHeld } from "./held-shown.ts";
import { countUndecided, listHeld } from "./held-store.ts";

const A_PAGE = 30;
const DECIDING = ["office", "manager"] as const;

const PageQuery = z.object({ jobId: z.guid().optional(), cursor: z.string().max(200).optional() });

export const heldPages: Feature = async (app, { db, now }) => {
  app.addHook("preHandler", async (request) => {
    if (!seesNavigation(request)) return;
    const { firmId } = signedIn(request);
    const count = await inFirm(db, firmId, (tx) => countUndecided(tx));
    if (count > 0)
      request.extraLinks = [{ href: "/held", text: say(request.language, "held.title"), count }];
  });

  app.get("/held", {
    schema: { operationId: "heldPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { jobId, cursor } = request.query;
      const filter = { jobId, decided: false, after: afterId(cursor), most: A_PAGE + 1 };
      const { firmId, roles } = signedIn(request);
      const { rows, more } = await inFirm(db, firmId, async (tx) => {
        const found = await listHeld(tx, filter);
        const shown = await Promise.all(
          found.slice(0, A_PAGE).map((row) => cardOf(tx, row, request.language)),
        );
        return { rows: shown, more: found.length > A_PAGE };
      });
      const last = more ? rows.at(-1) : undefined;
      const next = last && Buffer.from(last.opId).toString("base64url");
      return sendPage(request, reply, "held", {
        title: say(request.language, "held.title"),
        ...{ rows, jobId, next, mayTakeQuarantine: roles.includes("manager") },
      });
    },
  });

  app.post("/held/:opId/application", {
    schema: { operationId: "applyHeldForm", hide: true, params: HeldParams },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) => applyHeld(tx, request.params.opId, personId, now()));
      return reply.redirect("/held", 303);
    },
  });

  app.post("/held/:opId/dismissal", {
    schema: { operationId: "dismissHeldForm", hide: true, params: HeldParams, body: Dismissal },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { reason } = request.body;
      await inFirm(db, firmId, (tx) =>
        dismissHeld(tx, request.params.opId, personId, reason, now()),
      );
      return reply.redirect("/held", 303);
    },
  });
};

const seesNavigation = (request: FastifyRequest): boolean =>
  request.method === "GET" &&
  !request.url.startsWith("/api/") &&
  (request.headers.accept ?? "").includes("text/html") &&
  DECIDING.some((role) => request.session?.roles.includes(role));

const WORDS: Readonly<Record<string, MessageKey>> = {
  "stage-time": "held.kind.stageTime",
  snag: "held.kind.snag",
  message: "held.kind.message",
  "close-out": "held.kind.closeOut",
};

async function cardOf(tx: FirmTransaction, row: HeldRow, language: ShownLanguage) {
  const shown = shownHeld(row);
  const { payload } = shown.operation;
  const wordKey = WORDS[payload.kind];
  return {
    ...shown,
    what: payload.kind === "answer" ? await itemTitle(tx, row, payload.answer.itemId) : undefined,
    word: wordKey && say(language, wordKey),
    value: payload.kind === "answer" ? valueText(payload.answer.value) : undefined,
    text: "text" in payload ? payload.text : undefined,
    sentByAnother: row.sentById !== row.personId,
  };
}

async function itemTitle(tx: FirmTransaction, row: HeldRow, itemId: string): Promise<string> {
  if (row.jobId === null) return itemId;
  const plan = await planOfJob(transactionQuery(tx), tx.firmId, row.jobId);
  return plan?.byId.get(itemId)?.item.title ?? itemId;
}

/** What was typed, for the eye: "36.9 V", "done: true". */
function valueText(value: object): string {
  if ("number" in value && "unit" in value) return `${value.number} ${value.unit}`;
  return Object.entries(value)
    .map(([name, part]) => `${name}: ${typeof part === "object" ? JSON.stringify(part) : part}`)
    .join(", ");
}
