import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  InstrumentEvent,
  InstrumentEventPage,
  InstrumentEventQuery,
  NewInstrumentEvent,
} from "./event-schemas.ts";
import { type EventRow, listEvents } from "./event-store.ts";
import { recordEvent } from "./record-event.ts";
import { hasInstrument } from "./store.ts";

const TAGS = ["Instruments"];

export const instrumentEventRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/instruments/:id/events", {
    schema: {
      operationId: "listInstrumentEvents",
      summary: "List what happened to an instrument, in the order of entry",
      tags: TAGS,
      params: IdParams,
      querystring: InstrumentEventQuery,
      response: { 200: InstrumentEventPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, kind } = request.query;
      const { id } = request.params;
      const filter = { ...(kind ? { kind } : {}), ...after(cursor), most: limit + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await hasInstrument(tx, id))) throw notFound("instrument");
        return listEvents(tx, id, filter);
      });
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/instruments/:id/events", {
    schema: {
      operationId: "recordInstrumentEvent",
      summary: "Record that it was overloaded, dropped, rechecked or used",
      description:
        "What takes it out of use casts doubt on readings taken with it since; their jobs' " +
        "ledgers say so. A passed recheck is entered by owner, office or manager.",
      tags: TAGS,
      params: IdParams,
      body: NewInstrumentEvent,
      response: { 201: InstrumentEvent, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id } = request.params;
        const row = await recordEvent(tx, id, request.body, signedIn(request), now());
        return { location: `/api/v1/instruments/${id}/events`, body: shown(row) };
      }),
  });
};

function after(cursor: string | undefined): { after?: string } {
  const id = afterId(cursor);
  return id === undefined ? {} : { after: id };
}

const shown = (row: EventRow): z.infer<typeof InstrumentEvent> => ({
  id: row.id,
  kind: row.kind as z.infer<typeof InstrumentEvent>["kind"],
  at: row.atText,
  cycles: row.cycles,
  note: row.note,
  personId: row.personId,
  createdAt: row.createdAt.toISOString(),
});
