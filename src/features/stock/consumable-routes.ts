import { inFirm } from "../../db/scope.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, afterText, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  Consumable,
  ConsumableEdit,
  ConsumablePage,
  ConsumableQuery,
  MovementPage,
  MovementQuery,
  NewConsumable,
  NewMovement,
} from "./consumable-schemas.ts";
import { editConsumable, listConsumables, listMovements } from "./consumable-store.ts";
import { moveConsumable } from "./move-consumable.ts";
import { shownConsumable, shownMovement } from "./shown.ts";
import { requireConsumable, takeUpConsumable } from "./take-up-consumable.ts";

const TAGS = ["Stock"];

export const consumableRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/consumables", {
    schema: {
      operationId: "listConsumables",
      summary: "List what is used up and counted, with what is there",
      tags: TAGS,
      querystring: ConsumableQuery,
      response: { 200: ConsumablePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listConsumables(tx, { ...filter, after: afterText(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shownConsumable), limit, ({ code }) => code);
    },
  });

  app.post("/api/v1/consumables", {
    schema: {
      operationId: "addConsumable",
      summary: "Take up something that is used up and counted",
      tags: TAGS,
      body: NewConsumable,
      response: { 201: Consumable, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await takeUpConsumable(tx, request.body);
        const location = `/api/v1/consumables/${row.id}`;
        return { location, version: row.version, body: shownConsumable(row) };
      }),
  });

  app.get("/api/v1/consumables/:id", {
    schema: {
      operationId: "readConsumable",
      summary: "Read one consumable",
      tags: TAGS,
      params: IdParams,
      response: { 200: Consumable, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        requireConsumable(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shownConsumable(row);
    },
  });

  app.patch("/api/v1/consumables/:id", {
    schema: {
      operationId: "editConsumable",
      summary: "Change a consumable",
      tags: TAGS,
      params: IdParams,
      body: ConsumableEdit,
      response: { 200: Consumable, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const { archived, ...change } = request.body;
      const archive = archived === undefined ? {} : { archivedAt: archived ? now() : null };
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireConsumable(tx, id);
        if (!(await editConsumable(tx, id, version, { ...change, ...archive }))) {
          throw editedMeanwhile();
        }
        return requireConsumable(tx, id);
      });
      sendETag(reply, row.version);
      return shownConsumable(row);
    },
  });

  app.post("/api/v1/consumables/:id/movements", {
    schema: {
      operationId: "moveConsumable",
      summary: "Record what came, was used, came back, was counted or moved",
      tags: TAGS,
      params: IdParams,
      body: NewMovement,
      response: { 201: Consumable, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id } = request.params;
        await moveConsumable(tx, id, request.body, signedIn(request).personId, now());
        return { body: shownConsumable(await requireConsumable(tx, id)) };
      }),
  });

  app.get("/api/v1/consumables/:id/movements", {
    schema: {
      operationId: "listMovements",
      summary: "List movements of a consumable, the newest first",
      tags: TAGS,
      params: IdParams,
      querystring: MovementQuery,
      response: { 200: MovementPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireConsumable(tx, id);
        return listMovements(tx, id, { after: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shownMovement), limit, (row) => row.id);
    },
  });
};
