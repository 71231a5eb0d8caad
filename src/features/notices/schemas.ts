import { z } from "zod";
import { plainDate } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const recordFields = {
  id: z.guid(),
  day: z.string().describe("day of the firm's own calendar"),
  siteCount: z.number().int().describe("sites with units below their target"),
  unitCount: z.number().int().describe("units below their target"),
};

export const DueListRecord = z.object(recordFields).meta({ id: "DueListRecord" });

export const DueListRecordWithEntries = z
  .object({
    ...recordFields,
    entries: z
      .array(z.record(z.string(), z.unknown()))
      .describe("the sites as GET /api/v1/firmware/due listed them that morning"),
  })
  .meta({ id: "DueListRecordWithEntries" });

export const Notice = z
  .object({
    id: z.guid(),
    kind: z.string(),
    day: z.string(),
    personId: z.guid(),
    contentSha256: z.string().describe("SHA-256 of the mail's text"),
    mailId: z.guid().nullable(),
    mailState: z.string().nullable(),
  })
  .meta({ id: "Notice" });

export const DayQuery = z.strictObject({ ...PAGE_QUERY, day: plainDate().optional() });
export const DueListRecordPage = pageOf(DueListRecord);
export const NoticePage = pageOf(Notice);
