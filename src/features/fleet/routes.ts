import { z } from "zod";
import { forReading, inFirm } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { countByLevel } from "./models-store.ts";
import { exposure } from "./store.ts";

const LEVELS_MOST = 500;

const FleetCounts = z
  .object({
    today: z.string().describe("day of the firm's calendar"),
    levels: z
      .array(
        z.object({
          modelId: z.guid(),
          code: z.string(),
          level: z.string().nullable(),
          units: z.number().int(),
          target: z.string().nullable().describe("level of the target that counts everywhere"),
          below: z.boolean(),
        }),
      )
      .describe("installed units by model and level"),
    isCut: z
      .boolean()
      .describe("there are more levels than are read at once; the export fleet-levels has all"),
    exposure: z
      .array(
        z.object({
          severity: z.enum(FIRMWARE_SEVERITIES),
          term: z
            .enum(["over30", "over", "week", "month", "later"])
            .describe("more than 30 days late, up to 30, within 7 days, within 30, later"),
          units: z.number().int(),
          sites: z.number().int(),
        }),
      )
      .describe("units below the target that counts for them"),
  })
  .meta({ id: "FleetCounts" });

export const fleetRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/fleet/counts", {
    schema: {
      operationId: "readFleetCounts",
      summary: "Count installed units by level, and what is below its target",
      tags: ["Firmware"],
      response: { 200: FleetCounts, ...problems(401, 403) },
    },
    handler: async (request) =>
      inFirm(forReading(db), signedIn(request).firmId, async (tx) => {
        const { timeZone } = await readFirm(tx);
        const today = localDay(now().toISOString(), timeZone);
        const found = await countByLevel(tx, { most: LEVELS_MOST + 1 });
        const levels = found
          .slice(0, LEVELS_MOST)
          .map(({ modelId, code, level, units, target, below }) => ({
            ...{ modelId, code, level, units, target, below },
          }));
        const isCut = found.length > LEVELS_MOST;
        return { today, levels, isCut, exposure: await exposure(tx, today) };
      }),
  });
};
