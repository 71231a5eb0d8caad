import type { z } from "zod";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { recordReading } from "./record-reading.ts";
import { FirmwareReading, NewFirmwareReading } from "./schemas.ts";

export const firmwareReadingRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/units/:id/firmware-readings", {
    schema: {
      operationId: "addFirmwareReading",
      summary: "Record the level read off a unit",
      description:
        "Kept always, and flagged where it goes backwards or cannot be ordered. The unit moves " +
        "to the level that was read last; its readings stand in the unit's life.",
      tags: ["Firmware"],
      params: IdParams,
      body: NewFirmwareReading,
      response: { 201: FirmwareReading, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { readAt, ...fields } = request.body;
        const { personId } = signedIn(request);
        const { id: unitId } = request.params;
        const reading = { ...fields, unitId, readAt: new Date(readAt), personId };
        const row = await recordReading(tx, reading, now());
        return { location: `/api/v1/units/${unitId}/life`, body: shown(row) };
      }),
  });
};

type Row = Awaited<ReturnType<typeof recordReading>>;

const shown = (row: Row): z.infer<typeof FirmwareReading> => ({
  id: row.id,
  unitId: row.unitId,
  level: row.level,
  readAt: row.readAt.toISOString(),
  source: row.source,
  jobId: row.jobId,
  personId: row.personId,
  flag: row.flag as z.infer<typeof FirmwareReading>["flag"],
});
