import { z } from "zod";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import { plainDate } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const severity = z.enum(FIRMWARE_SEVERITIES);

export const DUE_STATES = ["due", "overdue", "unknown-level", "not-orderable"] as const;

const DueUnit = z.object({
  id: z.guid(),
  serial: z.string(),
  modelCode: z.string(),
  state: z.enum(DUE_STATES),
  from: z.string().nullable().describe("level last read off it; null when none was"),
  to: z.string().describe("level of the target"),
  severity,
  dueOn: z.string(),
  daysLeft: z.number().int().describe("negative: days over"),
  isHeld: z.boolean().describe("the release was stopped in this ring: update nothing for now"),
});

export const DueSite = z
  .object({
    id: z.guid(),
    reference: z.string(),
    addressLine: z.string(),
    locality: z.string(),
    region: z.string(),
    timeZone: z.string(),
    nextVisit: z
      .object({
        id: z.guid(),
        jobId: z.guid(),
        jobReference: z.string(),
        startsAt: z.string(),
      })
      .nullable()
      .describe("next booked visit of an open firmware job here"),
    units: z.array(DueUnit).describe("below their target"),
    blockedBy: z
      .array(
        z.object({
          code: z.enum(["ring-held", "no-safe-order", "order-unclear"]),
          sentence: z.string(),
        }),
      )
      .describe("what stands in the way of updating here; nothing where it can be done"),
    unclear: z
      .array(DueUnit)
      .describe("may be below it: the level is unknown or cannot be ordered; read it off the unit"),
  })
  .meta({ id: "DueSite" });

export const DuePage = pageOf(DueSite);

/** `dueBefore` and `overdue` ask for the day of a model's target: of its unclear units too. */
const dueFilters = {
  severity: severity.optional(),
  modelId: z.guid().optional(),
  region: z.string().max(40).optional(),
  overdue: z.stringbool().optional().describe("only what is past its day"),
  dueBefore: plainDate().optional().describe("only what is due before this day"),
  dueFrom: plainDate().optional().describe("only what is due on this day or later"),
};
export const DueQuery = z.strictObject({ ...PAGE_QUERY, ...dueFilters });
export const DueCountQuery = z.strictObject(dueFilters);
export type DueFilter = z.infer<typeof DueCountQuery>;

export const DueCounts = z
  .object({
    sites: z.number().int().describe("sites with units below their target"),
    units: z.number().int().describe("units below their target"),
    overdue: z.number().int().describe("of these, past their day"),
    unknown: z.number().int().describe("besides: units whose level is unknown or not orderable"),
    bySeverity: z.object({
      safety: z.number().int(),
      important: z.number().int(),
      routine: z.number().int(),
    }),
  })
  .meta({ id: "DueCounts" });
