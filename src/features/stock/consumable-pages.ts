import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { COUNTED_IN } from "../../domain/kit/line.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { countedText } from "../kit/words.ts";
import { MOVEMENT_KINDS, NewConsumable, NewMovement } from "./consumable-schemas.ts";
import { type ConsumableRow, listMovements } from "./consumable-store.ts";
import { openJobReferences } from "./job-reference-store.ts";
import { moveConsumable } from "./move-consumable.ts";
import { shownConsumable, shownMovement } from "./shown.ts";
import { CONSUMABLE_COLUMNS, sortedConsumables } from "./sorted-store.ts";
import { stockPlaces } from "./store.ts";
import { requireConsumable, takeUpConsumable } from "./take-up-consumable.ts";
import { withinStock } from "./within.ts";

const PATH = "/goods-in/consumables";
const USUAL = "code";
const PLACES_MOST = 100;
const JOBS_MOST = 200;
const FormFields = z.record(z.string(), z.string().max(2000));
const Query = z.object({
  ...sortedQuery(CONSUMABLE_COLUMNS),
  code: asked(z.string().max(40)),
});
const MovementQuery = z.object({ cursor: z.string().max(200).optional() });
const NEW = NewConsumable.extend({ leastAmount: z.coerce.number().min(0).optional() });

interface Failed {
  typed: FormBody;
  problems?: FieldProblems;
}

export const consumablePages: Feature = async (app, { db, now }) => {
  const mayKeep = (request: FastifyRequest, ...roles: string[]) =>
    signedIn(request).roles.some((role) => roles.includes(role));

  const showList = async (request: FastifyRequest, reply: FastifyReply, failed: Failed) => {
    const { language } = request;
    const query = Query.parse(request.query);
    const { code } = query;
    const sorting = sortingOf(query, USUAL);
    const found = await inFirm(db, signedIn(request).firmId, (tx) =>
      sortedConsumables(tx, { code, sorting, most: A_PAGE + 1 }),
    );
    const { rows, list } = sortedPage(found, {
      ...{ path: PATH, columns: CONSUMABLE_COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/consumables.csv",
    });
    return sendPage(request, reply, "consumables", {
      title: say(language, "kit.consumables"),
      styles: ["job"],
      within: withinStock("/goods-in/consumables", language),
      rows: rows.map((row) => shownRow(row, request)),
      filter: { code },
      ...failed,
      units: COUNTED_IN.map((value) => ({ value, text: say(language, `kit.unitName.${value}`) })),
      mayAdd: mayKeep(request, "owner", "office"),
      list,
    });
  };

  const showOne = async (request: FastifyRequest, reply: FastifyReply, failed: Failed) => {
    const { language } = request;
    const { id } = request.params as { id: string };
    const { cursor } = MovementQuery.parse(request.query);
    const data = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      firm: await readFirm(tx),
      row: await requireConsumable(tx, id),
      movements: await listMovements(tx, id, { after: afterId(cursor), most: A_PAGE + 1 }),
      places: await stockPlaces(tx, PLACES_MOST),
      jobs: await openJobReferences(tx, JOBS_MOST),
    }));
    const { countedIn } = data.row;
    const movements = data.movements.slice(0, A_PAGE).map(shownMovement);
    const last = data.movements.length > A_PAGE ? movements.at(-1) : undefined;
    return sendPage(request, reply, "consumable", {
      title: `${data.row.code} ${data.row.name}`,
      styles: ["job"],
      within: withinStock("/goods-in/consumables", language),
      row: shownRow(data.row, request),
      movements: movements.map((movement) => ({
        ...movement,
        kindName: say(language, `kit.movement.${movement.kind}`),
        amountText: countedText(movement.amount, countedIn, language),
        at: dayAndTime(language, new Date(movement.at), data.firm.timeZone),
      })),
      ...failed,
      places: data.places,
      jobs: data.jobs.map((job) => ({ value: job.id, text: `${job.reference} ${job.title}` })),
      kinds: MOVEMENT_KINDS.map((value) => ({
        value,
        text: say(language, `kit.movement.${value}`),
      })),
      mayMove: mayKeep(request, "owner", "office", "installer"),
      list: listView({
        ...{ path: `/goods-in/consumables/${id}`, filters: {}, cursor },
        next: last ? Buffer.from(last.id).toString("base64url") : null,
      }),
    });
  };

  app.get("/goods-in/consumables", {
    schema: { operationId: "consumablesPage", hide: true, querystring: Query },
    handler: async (request, reply) => showList(request, reply, { typed: {} }),
  });

  app.post("/goods-in/consumables", {
    schema: { operationId: "addConsumableForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const code = typed.code?.trim().toUpperCase();
      const read = readForm(NEW, { ...typed, code });
      if (!read.ok) return showList(request, reply.code(422), { typed, problems: read.problems });
      try {
        const row = await inFirmAs(db, signedIn(request), (tx) => takeUpConsumable(tx, read.value));
        return reply.redirect(`/goods-in/consumables/${row.id}`, 303);
      } catch (error) {
        return showList(request, reply.code(422), { typed, problems: refusedFields(error) });
      }
    },
  });

  app.get("/goods-in/consumables/:id", {
    schema: {
      operationId: "consumablePage",
      hide: true,
      params: IdParams,
      querystring: MovementQuery,
    },
    handler: async (request, reply) => showOne(request, reply, { typed: { kind: "received" } }),
  });

  app.post("/goods-in/consumables/:id/movements", {
    schema: { operationId: "moveConsumableForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        showOne(request, reply.code(422), { typed, problems });
      const amount = typed.amount?.trim() ? Number(typed.amount.replace(",", ".")) : undefined;
      const read = readForm(NewMovement, { ...typed, amount });
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      try {
        await inFirmAs(db, session, (tx) =>
          moveConsumable(tx, id, read.value, session.personId, now()),
        );
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(`/goods-in/consumables/${id}`, 303);
    },
  });
};

function shownRow(row: ConsumableRow, { language }: FastifyRequest) {
  const { countedIn, leastAmount } = row;
  return {
    ...shownConsumable(row),
    there: countedText(row.amount, countedIn, language),
    least: leastAmount === null ? undefined : countedText(leastAmount, countedIn, language),
    places: row.places.map(({ place, amount }) => ({
      place,
      there: countedText(amount, countedIn, language),
    })),
  };
}
