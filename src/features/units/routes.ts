import { inFirmAs, inFirmPipelined } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { readUnitLife } from "./life-store.ts";
import { moveRoutes } from "./move-routes.ts";
import { receiveUnit } from "./receive-unit.ts";
import {
  LIFE_ENTRIES_MOST,
  NewUnit,
  Unit,
  UnitEdit,
  UnitPage,
  UnitQuery,
  UnitWithLife,
} from "./schemas.ts";
import { shown, shownWithLife } from "./shown.ts";
import { editUnit, findUnit, listUnits, readUnit } from "./store.ts";

const TAGS = ["Units"];

export const unitRoutes: Feature = async (app, context) => {
  const { db, now } = context;
  await moveRoutes(app, context);

  app.get("/api/v1/units", {
    schema: {
      operationId: "listUnits",
      summary: "List units",
      tags: TAGS,
      querystring: UnitQuery,
      response: { 200: UnitPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const after = afterId(cursor);
      const rows = await inFirmPipelined(db, signedIn(request).firmId, (pipeline) =>
        listUnits(pipeline, { ...filter, after, most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/units", {
    schema: {
      operationId: "receiveUnit",
      summary: "Record the goods-in of a unit",
      description:
        "The serial is checked by the model's rule. A unit that was removed or swapped out, " +
        "and comes back repaired, is received again and keeps its history: 200 instead of 201.",
      tags: TAGS,
      body: NewUnit,
      response: {
        200: Unit.describe("It came back into stock"),
        201: Unit,
        ...problems(401, 403, 409, 422),
      },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const received = await receiveUnit(tx, { ...request.body, personId, at: now() });
        const { unit, isNew } = received;
        const location = `/api/v1/units/${unit.id}`;
        return { status: isNew ? 201 : 200, location, version: unit.version, body: shown(unit) };
      }),
  });

  app.get("/api/v1/units/:id", {
    schema: {
      operationId: "readUnit",
      summary: "Read one unit",
      tags: TAGS,
      params: IdParams,
      response: { 200: Unit, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirmPipelined(db, signedIn(request).firmId, (pipeline) =>
        readUnit(pipeline, request.params.id),
      );
      if (!row) throw notFound("unit");
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.get("/api/v1/units/:id/life", {
    schema: {
      operationId: "readUnitLife",
      summary: "Read one unit with its life: moves, swaps both ways, firmware readings",
      tags: TAGS,
      params: IdParams,
      response: { 200: UnitWithLife, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const row = await inFirmPipelined(db, signedIn(request).firmId, (pipeline) =>
        readUnitLife(pipeline, request.params.id, LIFE_ENTRIES_MOST),
      );
      if (!row) throw notFound("unit");
      return shownWithLife(row);
    },
  });

  app.patch("/api/v1/units/:id", {
    schema: {
      operationId: "editUnit",
      summary: "Change a unit's hardware revision or note",
      tags: TAGS,
      params: IdParams,
      body: UnitEdit,
      response: { 200: Unit, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirmAs(db, signedIn(request), async (tx) => {
        if (!(await findUnit(tx, id))) throw notFound("unit");
        if (!(await editUnit(tx, id, version, request.body))) throw editedMeanwhile();
        return findUnit(tx, id);
      });
      if (!row) throw notFound("unit");
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};
