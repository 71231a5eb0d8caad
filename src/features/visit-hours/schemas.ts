import { z } from "zod";

/** In fives, as visits are. */
const clock = (example: string) =>
  z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5][05]$/, "must be a time of day in steps of 5 minutes, as 09:30")
    .meta({ examples: [example] });

const HOURS_MOST = 14;

const Hours = z
  .strictObject({
    weekday: z.number().int().min(1).max(7).describe("Monday 1 to Sunday 7 (ISO 8601)"),
    from: clock("09:00"),
    to: clock("12:30"),
  })
  .refine(({ from, to }) => from < to, { path: ["to"], error: "must be later than from" });

export const VisitHoursInput = z.strictObject({
  hours: z
    .array(Hours)
    .max(HOURS_MOST)
    .describe("by the clocks at the site; none at all: it may be visited at any time"),
});

export const VisitHours = z
  .object({
    siteId: z.guid(),
    hours: z.array(z.object({ weekday: z.number().int(), from: z.string(), to: z.string() })),
    version: z.number().int(),
  })
  .meta({ id: "VisitHours" });
