import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { CalendarYear, warrantyYear } from "./calendar.ts";

const Query = z.strictObject({ year: CalendarYear });
const Year = z
  .object({
    months: z.array(
      z.object({
        month: z.string().meta({ examples: ["2026-11"] }),
        register: z.number().int().describe("units to be registered by a day of it, and are not"),
        ends: z.number().int().describe("units whose last day in warranty lies in it"),
      }),
    ),
  })
  .meta({ id: "WarrantyYear" });

export const warrantyCalendarRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/warranty/calendar", {
    schema: {
      operationId: "readWarrantyCalendar",
      summary: "Count by month of a year what ends and what is to be registered",
      tags: ["Warranty"],
      querystring: Query,
      response: { 200: Year, ...problems(401, 403, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, async (tx) => ({
        months: await warrantyYear(tx, request.query.year, now()),
      })),
  });
};
