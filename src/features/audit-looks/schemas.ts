import { z } from "zod";
import { dateTime, plainDate } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const LookQuery = z.strictObject({
  ...PAGE_QUERY,
  personId: z.guid().optional(),
  day: plainDate().optional().describe("by UTC, as on the ledgers"),
});

export const AuditLookKept = z
  .object({
    id: z.guid(),
    personId: z.guid(),
    personName: z.string(),
    path: z.string().describe("address of what was looked at"),
    operation: z.string(),
    subjectId: z.guid().nullable(),
    subjectName: z.string().nullable().describe("what people call it"),
    at: dateTime().describe("the first look of the day"),
  })
  .meta({ id: "AuditLookKept" });

export const LookPage = pageOf(AuditLookKept);
