import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { invalid, notFound } from "../../errors.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { listPeople } from "../people/store.ts";
import {
  KINDS,
  NewNonconformance,
  NonconformanceEdit,
  NonconformanceQuery,
  STATES,
} from "./schemas.ts";
import {
  addNonconformance,
  editNonconformance,
  findNonconformance,
  listNonconformances,
} from "./store.ts";

const A_PAGE = 40;
const PEOPLE_MOST = 200;
const none = z.literal("").transform(() => undefined);
const PageQuery = z.object({
  cursor: z.string().max(200).optional(),
  state: z.union([none, NonconformanceQuery.shape.state]),
  kind: z.union([none, NonconformanceQuery.shape.kind]),
});
const FormFields = z.record(z.string(), z.string().max(5000));
const Edit = NonconformanceEdit.extend({ version: z.coerce.number().int() });

export const nonconformancePages: Feature = async (app, { db, now }) => {
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
      const { firmId, personId } = signedIn(request);
      const { dueOn, ...fields } = read.value;
      const day = dueOn ? { dueOn: new Date(dueOn) } : {};
      const row = await inFirm(db, firmId, (tx) =>
        addNonconformance(tx, { ...fields, ...day, openedById: personId }, now()),
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
      const { version, dueOn, state, ...change } = read.value;
      try {
        await inFirm(db, signedIn(request).firmId, async (tx) => {
          if (state === "closed" && !change.cause) {
            throw invalid("/body/cause", say(request.language, "nonconformance.needsCause"));
          }
          if (state === "closed" && !change.effectCheck) {
            throw invalid("/body/effectCheck", say(request.language, "nonconformance.needsCheck"));
          }
          const row = await editNonconformance(tx, request.params.id, version, {
            ...change,
            ...(dueOn ? { dueOn: new Date(dueOn) } : { dueOn: null }),
            ...(state ? { state, closedAt: state === "closed" ? now() : null } : {}),
          });
          if (!row) throw editedMeanwhile();
        });
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
    const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
      listNonconformances(tx, { ...filter, before: afterId(cursor), most: A_PAGE + 1 }),
    );
    const shown = rows.slice(0, A_PAGE);
    const last = rows.length > A_PAGE ? shown.at(-1) : undefined;
    return sendPage(request, reply, "nonconformances", {
      title: say(language, "nonconformance.title"),
      ...{ typed, problems, filter },
      found: shown.map((row) => ({
        ...row,
        kindName: kindName(language, row.kind),
        stateName: say(language, `nonconformance.state.${row.state as (typeof STATES)[number]}`),
        opened: plainDay(language, row.openedAt.toISOString().slice(0, 10)),
        due: row.dueOn && plainDay(language, row.dueOn.toISOString().slice(0, 10)),
      })),
      kinds: KINDS.map((value) => ({ value, text: kindName(language, value) })),
      states: stateChoices(language),
      list: listView({
        ...{ path: "/nonconformances", filters: filter, cursor },
        next: last ? Buffer.from(last.id).toString("base64url") : null,
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

const kindName = (language: FastifyRequest["language"], kind: string): string =>
  say(language, `nonconformance.kind.${kind as (typeof KINDS)[number]}`);

const stateChoices = (language: FastifyRequest["language"]) =>
  STATES.map((value) => ({ value, text: say(language, `nonconformance.state.${value}`) }));
