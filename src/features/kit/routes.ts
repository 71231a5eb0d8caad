import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { readJobKit, takeTickBack, tickLine } from "./job-kit.ts";
import { JobKit, KitTick, NewKitTick } from "./schemas.ts";
import type { TickRow } from "./store.ts";

const TAGS = ["Kit"];
const TickParams = IdParams.extend({ tickId: z.guid() });

export const kitRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/jobs/:id/kit", {
    schema: {
      operationId: "readJobKit",
      summary: "Read what is packed for a job, and who ticked what",
      tags: TAGS,
      params: IdParams,
      response: { 200: JobKit, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id } = request.params;
      const { kit, ticks } = await inFirm(db, signedIn(request).firmId, (tx) => readJobKit(tx, id));
      const byLine = Map.groupBy(ticks.map(shownTick), ({ lineKey }) => lineKey);
      const items = kit.items.map((item) => ({
        ...item,
        notes: item.notes.map((note) => ({ ...note })),
        sources: [...item.sources],
        ticks: byLine.get(item.key) ?? [],
      }));
      return {
        jobId: id,
        items,
        inTheBox: kit.inTheBox.map((item) => ({
          ...item,
          notes: item.notes.map((note) => ({ ...note })),
          sources: [...item.sources],
        })),
        gaps: kit.gaps.map((gap) => ({ ...gap })),
        packed: items.filter((item) => item.ticks.length > 0).length,
      };
    },
  });

  app.post("/api/v1/jobs/:id/kit/ticks", {
    schema: {
      operationId: "tickKitLine",
      summary: "Tick a line of a job's kit as packed",
      tags: TAGS,
      params: IdParams,
      body: NewKitTick,
      response: {
        200: KitTick.describe("You had ticked it already"),
        201: KitTick,
        ...problems(401, 403, 404, 409, 422),
      },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { lineKey } = request.body;
        const { personId } = signedIn(request);
        const { row, isNew } = await tickLine(tx, request.params.id, lineKey, personId, now());
        return { status: isNew ? 201 : 200, body: shownTick(row) };
      }),
  });

  app.post("/api/v1/jobs/:id/kit/ticks/:tickId/undo", {
    schema: {
      operationId: "undoKitTick",
      summary: "Take a tick back, your own or another's",
      tags: TAGS,
      params: TickParams,
      response: { 201: KitTick, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id, tickId } = request.params;
        const row = await takeTickBack(tx, id, tickId, signedIn(request).personId, now());
        return { body: shownTick(row) };
      }),
  });
};

const shownTick = ({ id, lineKey, personId, person, tickedAt }: TickRow) => ({
  ...{ id, lineKey, personId, personName: person.name, tickedAt: tickedAt.toISOString() },
});
