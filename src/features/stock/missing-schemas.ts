import { z } from "zod";
import { plainDate } from "../../web/fields.ts";

export const MissingQuery = z.strictObject({
  day: plainDate()
    .optional()
    .describe("by the calendar of each visit's site; the firm's tomorrow when left out"),
});

export const MissingVisit = z
  .object({
    visitId: z.guid(),
    startsAt: z.iso.datetime({ offset: true }),
    timeZone: z.string(),
    crew: z.string(),
    job: z.object({ id: z.guid(), reference: z.string(), title: z.string(), kind: z.string() }),
    place: z.string(),
    unitsUnnamed: z.boolean().describe("an installation on which no unit is named yet"),
    units: z.array(
      z.object({
        unitId: z.guid(),
        serial: z.string(),
        modelCode: z.string(),
        problem: z.enum(["quarantined", "removed", "swapped", "elsewhere"]),
      }),
    ),
    consumables: z.array(
      z.object({
        code: z.string(),
        name: z.string().nullable().describe("null where the firm has no consumable of this code"),
        countedIn: z.string().nullable(),
        amount: z.number().describe("what the visit needs still"),
        there: z.number().describe("what of it is left for this visit"),
      }),
    ),
    instruments: z.array(
      z.object({
        toolClass: z.string(),
        problem: z.enum(["not-booked", "unfit"]),
        reference: z.string().nullable(),
        sentence: z.string().nullable().describe("why the booked one is not fit on the day"),
      }),
    ),
    unpacked: z.number().int().describe("lines of the kit that nobody has ticked"),
  })
  .meta({ id: "MissingVisit" });
export type MissingVisit = z.infer<typeof MissingVisit>;

export const Missing = z
  .object({
    day: z.string(),
    visits: z.number().int().describe("booked on that day"),
    items: z.array(MissingVisit).describe("those for which something is missing, earliest first"),
    next: z.null(),
  })
  .meta({ id: "Missing" });
