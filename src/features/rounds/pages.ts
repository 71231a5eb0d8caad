import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, shortDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
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
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { listCrews } from "../crews/store.ts";
import { readFirm } from "../firms/store.ts";
import { listPlans } from "../plans/store.ts";
import { listProductModels } from "../product-models/store.ts";
import { tellingConflicts } from "../visits/book-visit.ts";
import { acceptRounds, dropRounds, readRound } from "./accept-rounds.ts";
import { proposeRounds } from "./propose-rounds.ts";
import { choicesOf, defaultsFrom } from "./round-choices.ts";
import { NewUpdateRound, type Proposal, ROUND_STATES } from "./schemas.ts";
import { shownRound } from "./shown.ts";
import { COLUMNS, sortedRounds } from "./sorted-store.ts";
import { addRound } from "./store.ts";

const PATH = "/rounds";
const USUAL = "-made";
const CHOICES_MOST = 200;
const DECIDING = ["owner", "office", "manager"] as const;
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const PageQuery = z.object({
  ...sortedQuery(COLUMNS),
  state: asked(z.enum(ROUND_STATES)),
  replaces: z.guid().optional(),
});

export const roundPages: Feature = async (app, { db, now }) => {
  app.get("/rounds", {
    schema: { operationId: "roundsPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/rounds", {
    schema: {
      operationId: "proposeRoundsForm",
      ...{ hide: true, querystring: PageQuery, body: FormFields },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewUpdateRound, { ...typed, crewIds: listOf(typed.crewIds) });
      if (!read.ok) return show(request, reply.code(422), typed, read.problems);
      const { firmId, personId } = signedIn(request);
      try {
        const proposal = await proposeRounds(db, firmId, read.value, now());
        const fields = { request: read.value, proposal, createdById: personId };
        const id = await inFirm(db, firmId, (tx) => addRound(tx, fields, now()));
        return reply.redirect(`/rounds/${id}`, 303);
      } catch (error) {
        return show(request, reply.code(422), typed, refusedFields(error));
      }
    },
  });

  app.get("/rounds/:id", {
    schema: { operationId: "roundPage", hide: true, params: IdParams },
    handler: async (request, reply) => showRound(request, reply, request.params.id),
  });

  app.post("/rounds/:id/acceptance", {
    schema: { operationId: "acceptRoundForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id } = request.params;
      try {
        await tellingConflicts(db, firmId, (wanted) =>
          inFirm(db, firmId, (tx) => acceptRounds(tx, id, { personId, now: now() }, wanted)),
        );
      } catch (error) {
        const [problem] = Object.values(refusedFields(error));
        return showRound(request, reply.code(409), id, problem);
      }
      return reply.redirect(`/rounds/${id}`, 303);
    },
  });

  app.post("/rounds/:id/dropping", {
    schema: { operationId: "dropRoundForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      await inFirm(db, firmId, (tx) => dropRounds(tx, request.params.id, now()));
      return reply.redirect("/rounds", 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { replaces, ...query } = request.query as z.infer<typeof PageQuery>;
    const { state } = query;
    const asks = { state, sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
    const data = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      firm: await readFirm(tx),
      found: await sortedRounds(tx, asks),
      crews: await listCrews(tx, { active: true, most: CHOICES_MOST }),
      plans: await listPlans(tx, { most: CHOICES_MOST }),
      models: await listProductModels(tx, { most: CHOICES_MOST }),
    }));
    const { rows, list } = sortedPage(data.found, {
      ...{ path: PATH, columns: COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/update-rounds.csv",
    });
    const today = localDay(now().toISOString(), data.firm.timeZone);
    return sendPage(request, reply, "rounds", {
      title: say(language, "rounds.title"),
      ...{ problems, replacesId: typed.replacesId ?? replaces },
      typed: { ...defaultsFrom(today), ...typed },
      mayPlan: DECIDING.some((role) => signedIn(request).roles.includes(role)),
      rows: rows.map((row) => ({
        ...row,
        made: dayAndTime(language, row.createdAt, data.firm.timeZone),
        stateName: say(language, `rounds.state.${row.state}`),
      })),
      ...choicesOf(data, listOf(typed.crewIds), language),
      ...{ list, filter: { state }, filtered: state !== undefined },
      states: ROUND_STATES.map((value) => ({
        ...{ value, text: say(language, `rounds.state.${value}`) },
      })),
    });
  }

  async function showRound(
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    problem?: string,
  ) {
    const { language } = request;
    const round = await inFirm(db, signedIn(request).firmId, async (tx) =>
      shownRound(await readRound(tx, id)),
    );
    return sendPage(request, reply, "round", {
      title: `${round.reference} ${say(language, "rounds.title")}`,
      ...{ round, problem },
      stateName: say(language, `rounds.state.${round.state}`),
      isOpen: round.state === "proposed",
      isAccepted: round.state === "accepted",
      mayDecide: DECIDING.some((role) => signedIn(request).roles.includes(role)),
      ...roundsShown(round.proposal, language),
    });
  }
};

function roundsShown(proposal: Proposal, language: ShownLanguage) {
  const { timeZone } = proposal;
  const clock = (time: string) => dayAndTime(language, new Date(time), timeZone).slice(-5);
  return {
    timeZone,
    notSent: proposal.notSent.map((one) => ({ ...one, day: shortDay(language, one.day) })),
    rounds: proposal.rounds.map((round) => ({
      ...round,
      day: shortDay(language, round.day),
      leaves: clock(round.leavesAt),
      returns: clock(round.returnsAt),
      stops: round.stops.map((stop, index) => ({
        ...stop,
        number: index + 1,
        from: clock(stop.startsAt),
        to: clock(stop.endsAt),
        units: stop.unitIds.length,
      })),
    })),
  };
}
