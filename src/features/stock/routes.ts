import type { FastifyRequest } from "fastify";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { requireUnit } from "../units/move.ts";
import { Unit } from "../units/schemas.ts";
import { shown } from "../units/shown.ts";
import { putInPlace, quarantine, release, returnToMaker } from "./quarantine.ts";
import {
  GoodsIn,
  NewGoodsIn,
  NewPlace,
  Reason,
  StockCounts,
  StockUnitPage,
  StockUnitQuery,
} from "./schemas.ts";
import { shownStock } from "./shown.ts";
import { countStock, listStockUnits } from "./store.ts";
import { takeGoodsIn } from "./take-goods-in.ts";

const TAGS = ["Stock"];
const COUNTS_MOST = 1000;

export const stockRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/stock/goods-in", {
    schema: {
      operationId: "takeGoodsIn",
      summary: "Take a unit into stock, with what was seen when its box was opened",
      description:
        "The serial is checked by the model's rule. Damage to the unit itself, or a tripped tilt " +
        "marker of a battery pack, puts it into quarantine, and `caution` says what to do.",
      tags: TAGS,
      body: NewGoodsIn,
      response: {
        200: GoodsIn.describe("It came back into stock"),
        201: GoodsIn,
        ...problems(401, 403, 409, 422),
      },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const { isNew, unit, ...taken } = await takeGoodsIn(tx, request.body, personId, now());
        return {
          status: isNew ? 201 : 200,
          location: `/api/v1/units/${unit.id}`,
          body: { ...taken, unit: shown(unit) },
        };
      }),
  });

  app.get("/api/v1/stock/units", {
    schema: {
      operationId: "listStockUnits",
      summary: "List units in stock, the last received first",
      tags: TAGS,
      querystring: StockUnitQuery,
      response: { 200: StockUnitPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listStockUnits(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shownStock), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/stock/counts", {
    schema: {
      operationId: "countStock",
      summary: "Count units in stock by product model and place",
      tags: TAGS,
      response: { 200: StockCounts, ...problems(401, 403) },
    },
    handler: async (request) => {
      const items = await inFirm(db, signedIn(request).firmId, (tx) => countStock(tx, COUNTS_MOST));
      return { items, next: null };
    },
  });

  const acts = [
    {
      path: "quarantine",
      operationId: "quarantineUnit",
      summary: "Set a unit in stock apart because it may be damaged",
      act: quarantine,
    },
    {
      path: "quarantine-release",
      operationId: "releaseUnit",
      summary: "Release a unit from quarantine",
      act: release,
    },
    {
      path: "return-to-maker",
      operationId: "returnUnitToMaker",
      summary: "Send a unit in stock back to its maker",
      act: returnToMaker,
    },
  ] as const;
  for (const { path, operationId, summary, act } of acts) {
    app.post(`/api/v1/units/:id/${path}`, {
      schema: {
        operationId,
        summary,
        tags: TAGS,
        params: IdParams,
        body: Reason,
        response: { 201: Unit, ...problems(401, 403, 404, 409, 422) },
      },
      handler: async (request, reply) =>
        create(db, request, reply, async (tx) => {
          const { id: unitId } = request.params;
          const { personId } = signedIn(request);
          await act(tx, { unitId, personId, at: now(), ...request.body });
          return made(tx, request);
        }),
    });
  }

  app.post("/api/v1/units/:id/stock-place", {
    schema: {
      operationId: "placeUnitInStock",
      summary: "Say where a unit in stock lies",
      tags: TAGS,
      params: IdParams,
      body: NewPlace,
      response: { 201: Unit, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        await putInPlace(tx, request.params.id, request.body.place);
        return made(tx, request);
      }),
  });
};

async function made(tx: FirmTransaction, request: FastifyRequest) {
  const { id } = request.params as { id: string };
  const unit = await requireUnit(tx, id);
  return { location: `/api/v1/units/${id}`, version: unit.version, body: shown(unit) };
}
