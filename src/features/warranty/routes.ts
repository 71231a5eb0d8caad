import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, PAGE_QUERY, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  dayText,
  keepReading,
  keepRegistration,
  requireUnit,
  takeRegistrationBack,
} from "./keep-warranty.ts";
import {
  NewReading,
  NewRegistration,
  Reading,
  ReadingPage,
  UnitWarranty,
  UnitWarrantyPage,
  WarrantyCountQuery,
  WarrantyCounts,
  WarrantyQuery,
} from "./schemas.ts";
import { countedStandings, standings } from "./standings.ts";
import { listReadings, type ReadingRow } from "./store.ts";
import { oneWarranty } from "./unit-view.ts";

const TAGS = ["Warranty"];
const READ = problems(401, 403, 404, 422);

export const warrantyRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/warranty", {
    schema: {
      operationId: "listWarranties",
      summary: "See how the warranty of each installed unit stands, and why",
      tags: TAGS,
      querystring: WarrantyQuery,
      response: { 200: UnitWarrantyPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const page = { ...filter, after: afterId(cursor), most: limit + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, (tx) => standings(tx, page, now()));
      return toPage(request, reply, rows, limit, ({ unitId }) => unitId);
    },
  });

  app.get("/api/v1/warranty/counts", {
    schema: {
      operationId: "countWarranties",
      summary: "Count installed units by how their warranty stands",
      tags: TAGS,
      querystring: WarrantyCountQuery,
      response: { 200: WarrantyCounts, ...problems(401, 403, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, (tx) => countedStandings(tx, request.query, now())),
  });

  app.get("/api/v1/units/:id/warranty", {
    schema: {
      operationId: "readUnitWarranty",
      summary: "See how one unit's warranty stands, and what a claim made today would lack",
      tags: TAGS,
      params: IdParams,
      response: { 200: UnitWarranty, ...READ },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, (tx) => oneWarranty(tx, request.params.id, now())),
  });

  app.put("/api/v1/units/:id/warranty/registration", {
    schema: {
      operationId: "putWarrantyRegistration",
      summary: "Note that a unit was registered with its maker, or correct the note",
      tags: TAGS,
      params: IdParams,
      body: NewRegistration,
      response: { 200: UnitWarranty, ...READ },
    },
    handler: async (request) => {
      const session = signedIn(request);
      const { id } = request.params;
      const by = { personId: session.personId, now: now() };
      return inFirmAs(db, session, async (tx) => {
        await keepRegistration(tx, id, request.body, by);
        return oneWarranty(tx, id, by.now);
      });
    },
  });

  app.delete("/api/v1/units/:id/warranty/registration", {
    schema: {
      operationId: "removeWarrantyRegistration",
      summary: "Take back a registration that was entered by a slip",
      tags: TAGS,
      params: IdParams,
      response: { 200: UnitWarranty, ...READ },
    },
    handler: async (request) => {
      const session = signedIn(request);
      const { id } = request.params;
      const by = { personId: session.personId, now: now() };
      return inFirmAs(db, session, async (tx) => {
        await takeRegistrationBack(tx, id, by);
        return oneWarranty(tx, id, by.now);
      });
    },
  });

  app.get("/api/v1/units/:id/warranty/readings", {
    schema: {
      operationId: "listWarrantyReadings",
      summary: "List a unit's throughput and temperatures, the latest entered first",
      tags: TAGS,
      params: IdParams,
      querystring: z.strictObject(PAGE_QUERY),
      response: { 200: ReadingPage, ...READ },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireUnit(tx, id);
        return listReadings(tx, id, { before: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shownReading), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/units/:id/warranty/readings", {
    schema: {
      operationId: "addWarrantyReading",
      summary: "Enter a unit's throughput, its temperatures or both, one reading a day",
      tags: TAGS,
      params: IdParams,
      body: NewReading,
      response: { 201: Reading, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const by = { personId: signedIn(request).personId, now: now() };
        const row = await keepReading(tx, request.params.id, request.body, by);
        return { body: shownReading(row) };
      }),
  });
};

const shownReading = (row: ReadingRow) => ({
  id: row.id,
  readOn: dayText(row.readOn),
  throughputKwh: row.throughputKwh,
  temperatureLowest: row.temperatureLowest,
  temperatureHighest: row.temperatureHighest,
  createdAt: row.createdAt.toISOString(),
});
