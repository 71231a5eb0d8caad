import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { isOverdue, nextStep } from "../../domain/corrective/follow-up.ts";
import { notFound } from "../../errors.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { listPeople } from "../people/store.ts";
import { followUp, openNonconformance } from "./follow-up.ts";
import { listOf } from "./list-of.ts";
import {
  KINDS,
  NewNonconformance,
  NonconformanceEdit,
  NonconformanceQuery,
  STATES,
} from "./schemas.ts";
import { findNonconformance } from "./store.ts";

const A_PAGE = 40;
const PEOPLE_MOST = 200;
const none = z.literal("").transform(() => undefined);
const PageQuery = z.object({
  cursor: z.string().max(200).optional(),
  state: z.union([none, NonconformanceQuery.shape.state]),
  kind: z.union([none, NonconformanceQuery.shape.kind]),
  overdue: z.union([none, NonconformanceQuery.shape.overdue]),
});
const FormFields = z.record(z.string(), z.string().max(5000));
const Edit = NonconformanceEdit.extend({ version: z.coerce.number().int() });

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

  app.get("/nonconformances/:id", {
    schema: { operationId: "nonconformancePage", hide: true, params: IdParams },
    handler: async (request, reply) => showOne(request, reply),
  });

  app.post("/nonconformances/:id", {
    schema: {
      operationId: "editNonconformanceForm",
      ...{ hide: true, params: IdParams, body: FormFields },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(Edit, typed);
      if (!read.ok) return showOne(request, reply.code(422), typed, read.problems);
      const { version, dueOn, ...change } = read.value;
      try {
        await inFirm(db, signedIn(request).firmId, (tx) =>
          followUp(
            tx,
            { id: request.params.id, version },
            { ...change, dueOn: dueOn ?? null },
            whoOf(request),
          ),
        );
      } catch (error) {
        return showOne(request, reply.code(422), typed, refusedFields(error));
      }
      return reply.redirect("/nonconformances", 303);
    },
  });

  async function showList(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { cursor, ...filter } = request.query as z.infer<typeof PageQuery>;
    const { rows, today } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      rows: await listOf(tx, filter, now(), { before: afterId(cursor), most: A_PAGE + 1 }),
      today: await todayOfFirm(tx, now()),
    }));
    const shown = rows.slice(0, A_PAGE);
    const last = rows.length > A_PAGE ? shown.at(-1) : undefined;
    return sendPage(request, reply, "nonconformances", {
      title: say(language, "nonconformance.title"),
      ...{ typed, problems, filter },
      found: shown.map((row) => listed(row, today, language)),
      kinds: KINDS.map((value) => ({ value, text: kindName(language, value) })),
      states: stateChoices(language),
      list: listView({
        ...{ path: "/nonconformances", filters: filter, cursor },
        next: last ? Buffer.from(last.id).toString("base64url") : null,
        exportPath: "/api/v1/exports/nonconformances.csv",
      }),
    });
  }

  async function showOne(
    request: FastifyRequest,
    reply: FastifyReply,
    typed?: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { id } = request.params as { id: string };
    const { roles, firmId } = signedIn(request);
    const { row, people } = await inFirm(db, firmId, async (tx) => ({
      row: await findNonconformance(tx, id),
      people: await listPeople(tx, { active: true, most: PEOPLE_MOST }),
    }));
    if (!row) throw notFound("nonconformance");
    const asKept = {
      ...{ title: row.title, cause: row.cause, containment: row.containment, state: row.state },
      ...{ correction: row.correction, effectCheck: row.effectCheck, ownerId: row.ownerId },
      ...{ dueOn: row.dueOn?.toISOString().slice(0, 10), version: row.version },
    };
    return sendPage(request, reply, "nonconformance", {
      title: `${row.reference} ${row.title}`,
      ...{ row, problems, typed: typed ?? asKept },
      kindName: kindName(language, row.kind),
      states: stateChoices(language),
      people: people.map((person) => ({ value: person.id, text: person.name })),
      mayEdit: roles.some((role) => role === "owner" || role === "manager"),
    });
  }
};

type Row = Awaited<ReturnType<typeof listOf>>[number];

function listed(row: Row, today: string, language: FastifyRequest["language"]) {
  const dueOn = row.dueOn?.toISOString().slice(0, 10) ?? null;
  const next = row.state === "closed" ? undefined : nextStep(row);
  return {
    ...row,
    kindName: kindName(language, row.kind),
    stateName: say(language, `nonconformance.state.${row.state as (typeof STATES)[number]}`),
    next: next && say(language, `nonconformance.next.${next}`),
    opened: plainDay(language, row.openedAt.toISOString().slice(0, 10)),
    due: dueOn && plainDay(language, dueOn),
    isOverdue: isOverdue({ state: row.state, dueOn }, today),
  };
}

const kindName = (language: FastifyRequest["language"], kind: string): string =>
  say(language, `nonconformance.kind.${kind as (typeof KINDS)[number]}`);

const stateChoices = (language: FastifyRequest["language"]) =>
  STATES.map((value) => ({ value, text: say(language, `nonconformance.state.${value}`) }));
