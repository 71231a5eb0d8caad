import { z } from "zod";
import { dateTime, plainDate } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

/** How long a finished file can be fetched. */
export const KEPT_DAYS = 7;
/** More would be a file that nobody carries about; periods divide it. */
export const JOBS_MOST = 5000;

const Period = z
  .strictObject({
    kind: z.literal("period"),
    from: plainDate().describe("first day on which the jobs were closed, by the firm's calendar"),
    to: plainDate().describe("last day"),
  })
  .refine(({ from, to }) => from <= to, { path: ["to"], message: "lies before the first day" });

export const ExportScope = z
  .discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("unit"), unitId: z.guid() }),
    z.strictObject({ kind: z.literal("site"), siteId: z.guid() }),
    Period,
    z.strictObject({ kind: z.literal("fleet") }),
  ])
  .meta({ id: "EvidenceScope" });
export type ExportScope = z.infer<typeof ExportScope>;

export const EXPORT_STATES = ["making", "ready", "failed", "gone"] as const;

export const NewEvidenceExport = z.strictObject({ scope: ExportScope });

export const EvidenceExport = z
  .object({
    id: z.guid(),
    scope: ExportScope,
    title: z.string(),
    fileName: z.string(),
    state: z
      .enum(EXPORT_STATES)
      .describe("gone: the file was removed, seven days after it was made"),
    jobsDone: z.number().int(),
    jobsTotal: z.number().int(),
    bytes: z.number().int().nullable(),
    sha256: z.string().nullable().describe("of the file"),
    problem: z.string().nullable(),
    stampedAt: dateTime().nullable().describe("moment of the time stamp (RFC 3161) in it"),
    stampProblem: z.string().nullable().describe("why it has none, although a service is set up"),
    personId: z.guid(),
    personName: z.string(),
    createdAt: dateTime(),
    finishedAt: dateTime().nullable(),
  })
  .meta({ id: "EvidenceExport" });

export const EvidenceExportPage = pageOf(EvidenceExport);
export const EvidenceExportQuery = z.strictObject(PAGE_QUERY);
