import { type FirmTransaction, inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { calibrateInstrument, changeInstrument, takeOnInstrument } from "./keep-instrument.ts";
import { listStanding } from "./list-instruments.ts";
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
import type { Here } from "./standing.ts";
import { findInstrument } from "./store.ts";

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
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) =>
        listStanding(
          tx,
          { ...filter, after: afterId(cursor), most: limit + 1 },
          await here(tx, now()),
        ),
      );
      return toPage(request, reply, rows, limit, (row) => row.id);
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
        return { location, version: row.version, body: shown(row, await here(tx, now())) };
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
      const body = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await readInstrument(tx, request.params.id);
        return shownWithCalibrations(row, await here(tx, now()));
      });
      sendETag(reply, body.version);
      return body;
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
      const body = await inFirmAs(db, signedIn(request), async (tx) => {
        await changeInstrument(tx, id, version, request.body);
        return shown(await readInstrument(tx, id), await here(tx, now()));
      });
      sendETag(reply, body.version);
      return body;
    },
  });

  app.post("/api/v1/instruments/:id/calibrations", {
    schema: {
      operationId: "addCalibration",
      summary: "Record a calibration",
      description:
        "One that failed casts doubt on readings taken since the last that passed; their jobs' " +
        "ledgers say so.",
      tags: TAGS,
      params: IdParams,
      body: NewCalibration,
      response: { 201: Calibration, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id } = request.params;
        const { personId } = signedIn(request);
        const row = await calibrateInstrument(tx, id, request.body, now(), personId);
        return { location: `/api/v1/instruments/${id}`, body: shownCalibration(row) };
      }),
  });
};

async function readInstrument(tx: FirmTransaction, id: string) {
  const row = await findInstrument(tx, id);
  if (!row) throw notFound("instrument");
  return row;
}

const here = async (tx: FirmTransaction, now: Date): Promise<Here> => ({
  now,
  timeZone: (await readFirm(tx)).timeZone,
});
