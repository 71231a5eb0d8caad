import { inFirm } from "../../db/scope.ts";
import { DRAWING, sendDrawing } from "../../web/drawing.ts";
import { sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { tellingConflicts } from "../visits/book-visit.ts";
import { acceptRounds, dropRounds, readRound } from "./accept-rounds.ts";
import { proposeRounds } from "./propose-rounds.ts";
import {
  NewUpdateRound,
  Proposal,
  UpdateRound,
  UpdateRoundPage,
  UpdateRoundQuery,
} from "./schemas.ts";
import { shownHead, shownRound } from "./shown.ts";
import { addRound, listRounds } from "./store.ts";

const TAGS = ["Update rounds"];

export const roundRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/update-rounds", {
    schema: {
      operationId: "proposeUpdateRounds",
      summary: "Plan day rounds for sites that are due; nothing is booked by it",
      description:
        "Takes the most urgent due sites without a booked update visit, and the hours in which " +
        "all of a crew work, nobody is away and nothing is booked. A crew that lacks what update " +
        "visits ask for is not sent, and a site is visited in the hours its customer has named. " +
        "Drive times are estimated from distances.",
      tags: TAGS,
      body: NewUpdateRound,
      response: { 201: UpdateRound, ...problems(401, 403, 404, 409, 422, 503) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const asked = request.body;
      const proposal = await proposeRounds(db, firmId, asked, now());
      return create(db, request, reply, async (tx) => {
        const fields = { request: asked, proposal, createdById: personId };
        const id = await addRound(tx, fields, now());
        const row = await readRound(tx, id);
        const location = `/api/v1/update-rounds/${id}`;
        return { location, version: row.version, body: shownRound(row) };
      });
    },
  });

  app.get("/api/v1/update-rounds", {
    schema: {
      operationId: "listUpdateRounds",
      summary: "List proposals of rounds, the latest first",
      tags: TAGS,
      querystring: UpdateRoundQuery,
      response: { 200: UpdateRoundPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const after = afterId(cursor);
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listRounds(tx, { most: limit + 1, ...(after ? { after } : {}) }),
      );
      return toPage(request, reply, rows.map(shownHead), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/update-rounds/:id", {
    schema: {
      operationId: "readUpdateRound",
      summary: "Read one proposal of rounds",
      tags: TAGS,
      params: IdParams,
      response: { 200: UpdateRound, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readRound(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shownRound(row);
    },
  });

  app.get("/api/v1/update-rounds/:id/drawing", {
    schema: {
      operationId: "drawUpdateRound",
      summary: "The rounds drawn to scale",
      tags: TAGS,
      params: IdParams,
      response: { 200: DRAWING, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readRound(tx, request.params.id),
      );
      return sendDrawing(reply, Proposal.parse(row.proposal).svg);
    },
  });

  app.post("/api/v1/update-rounds/:id/acceptance", {
    schema: {
      operationId: "acceptUpdateRound",
      summary: "Book every stop of the rounds, or none",
      tags: TAGS,
      params: IdParams,
      response: { 201: UpdateRound, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      return tellingConflicts(db, firmId, (wanted) =>
        create(db, request, reply, async (tx) => {
          const { id } = request.params;
          await acceptRounds(tx, id, { personId, now: now() }, wanted);
          const row = await readRound(tx, id);
          return { location: `/api/v1/update-rounds/${id}`, body: shownRound(row) };
        }),
      );
    },
  });

  app.post("/api/v1/update-rounds/:id/dropping", {
    schema: {
      operationId: "dropUpdateRound",
      summary: "Put a proposal aside",
      tags: TAGS,
      params: IdParams,
      response: { 201: UpdateRound, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        await dropRounds(tx, request.params.id, now());
        const row = await readRound(tx, request.params.id);
        return { location: `/api/v1/update-rounds/${row.id}`, body: shownRound(row) };
      }),
  });
};
