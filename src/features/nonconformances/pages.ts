import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { isOverdue, nextStep } from "../../domain/corrective/follow-up.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, readForm } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { todayOfFirm } from "../firms/today.ts";
import { openNonconformance } from "./follow-up.ts";
import { KINDS, NewNonconformance, NonconformanceQuery, STATES } from "./schemas.ts";
import { COLUMNS, sortedNonconformances } from "./sorted-store.ts";
import { kindName } from "./view.ts";

const PATH = "/nonconformances";
const USUAL = "-opened";
const none = z.literal("").transform(() => undefined);
const PageQuery = z.object({
  ...sortedQuery(COLUMNS),
  state: z.union([none, NonconformanceQuery.shape.state]),
  kind: z.union([none, NonconformanceQuery.shape.kind]),
  overdue: z.union([none, NonconformanceQuery.shape.overdue]),
  effectOverdue: z.union([none, NonconformanceQuery.shape.effectOverdue]),
});
const FormFields = z.record(z.string(), z.string().max(5000));

export const nonconformancePages: Feature = async (app, { db, now }) => {
  const whoOf = (request: FastifyRequest) => ({
    ...{ personId: signedIn(request).personId, language: request.language, now: now() },
  });

  app.get("/nonconformances", {
    schema: { operationId: "nonconformancesPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => showList(request, reply, {}),
  });

  app.post("/nonconformances", {
    schema: { operationId: "openNonconformanceForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewNonconformance, typed);
      if (!read.ok) return showList(request, reply.code(422), typed, read.problems);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        openNonconformance(tx, read.value, whoOf(request)),
      );
      return reply.redirect(row ? `/nonconformances/${row.id}` : "/nonconformances", 303);
    },
  });

  async function showList(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const query = request.query as z.infer<typeof PageQuery>;
    const { sort: _sort, cursor: _cursor, overdue, effectOverdue, ...filter } = query;
    const sorting = sortingOf(query, USUAL);
    const { found, today } = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const today = await todayOfFirm(tx, now());
      const past = {
        dueBefore: overdue ? today : undefined,
        effectBefore: effectOverdue ? today : undefined,
      };
      const asked = { ...filter, ...past, sorting, most: A_PAGE + 1 };
      return { today, found: await sortedNonconformances(tx, asked) };
    });
    const { rows, list } = sortedPage(found, {
      ...{ path: PATH, columns: COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/nonconformances.csv",
    });
    return sendPage(request, reply, "nonconformances", {
      title: say(language, "nonconformance.title"),
      ...{ typed, problems, filter: { ...filter, overdue, effectOverdue } },
      found: rows.map((row) => listed(row, today, language)),
      kinds: KINDS.map((value) => ({ value, text: kindName(language, value) })),
      states: stateChoices(language),
      list,
    });
  }
};

type Row = Awaited<ReturnType<typeof sortedNonconformances>>[number];

function listed(row: Row, today: string, language: FastifyRequest["language"]) {
  const dueOn = row.dueOn?.toISOString().slice(0, 10) ?? null;
  const effectDueOn = row.effectDueOn?.toISOString().slice(0, 10) ?? null;
  const next = row.state === "closed" ? undefined : nextStep(row);
  return {
    ...row,
    kindName: kindName(language, row.kind),
    stateName: say(language, `nonconformance.state.${row.state as (typeof STATES)[number]}`),
    next: next && say(language, `nonconformance.next.${next}`),
    opened: plainDay(language, row.openedAt.toISOString().slice(0, 10)),
    due: dueOn && plainDay(language, dueOn),
    isOverdue: isOverdue({ state: row.state, dueOn }, today),
    effectDue: effectDueOn && plainDay(language, effectDueOn),
    isEffectOverdue: isOverdue({ state: row.state, dueOn: effectDueOn }, today),
  };
}

const stateChoices = (language: FastifyRequest["language"]) =>
  STATES.map((value) => ({ value, text: say(language, `nonconformance.state.${value}`) }));
