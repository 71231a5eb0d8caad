import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { calibrateInstrument, changeInstrument, takeOnInstrument } from "./keep-instrument.ts";
import {
  Calibration,
  Instrument,
  InstrumentEdit,
  InstrumentPage,
  InstrumentQuery,
  InstrumentWithCalibrations,
  NewCalibration,
  NewInstrument,
} from "./schemas.ts";
import { shown, shownCalibration, shownWithCalibrations } from "./shown.ts";
import { findInstrument, listInstruments } from "./store.ts";

const TAGS = ["Instruments"];

export const instrumentRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/instruments", {
    schema: {
      operationId: "listInstruments",
      summary: "List instruments with their calibration dates",
      tags: TAGS,
      querystring: InstrumentQuery,
      response: { 200: InstrumentPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listInstruments(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/instruments", {
    schema: {
      operationId: "addInstrument",
      summary: "Take an instrument into use",
      tags: TAGS,
      body: NewInstrument,
      response: { 201: Instrument, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await readInstrument(tx, await takeOnInstrument(tx, request.body));
        const location = `/api/v1/instruments/${row.id}`;
        return { location, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/instruments/:id", {
    schema: {
      operationId: "readInstrument",
      summary: "Read one instrument with its calibrations",
      tags: TAGS,
      params: IdParams,
      response: { 200: InstrumentWithCalibrations, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readInstrument(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shownWithCalibrations(row);
    },
  });

  app.patch("/api/v1/instruments/:id", {
    schema: {
      operationId: "editInstrument",
      summary: "Change or retire an instrument, or bring it back",
      tags: TAGS,
      params: IdParams,
      body: InstrumentEdit,
      response: { 200: Instrument, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await changeInstrument(tx, id, version, request.body);
        return readInstrument(tx, id);
      });
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.post("/api/v1/instruments/:id/calibrations", {
    schema: {
      operationId: "addCalibration",
      summary: "Record a calibration",
      tags: TAGS,
      params: IdParams,
      body: NewCalibration,
      response: { 201: Calibration, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id } = request.params;
        const row = await calibrateInstrument(tx, id, request.body, now());
        return { location: `/api/v1/instruments/${id}`, body: shownCalibration(row) };
      }),
  });
};

async function readInstrument(tx: FirmTransaction, id: string) {
  const row = await findInstrument(tx, id);
  if (!row) throw notFound("instrument");
  return row;
}
