import { z } from "zod";
import { shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const DOCUMENT_BYTES_MOST = 20 * 1024 * 1024;
export const DOCUMENT_TYPES = ["application/pdf", "image/jpeg", "image/png"] as const;

export const DocumentParams = z.object({
  id: z.guid().describe("the job"),
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/, "must be a SHA-256 in lower-case hexadecimal")
    .describe("SHA-256 of the file"),
});

export const DocumentName = z.strictObject({
  name: shortText(160)
    .describe("what it is called in lists, and when it is saved")
    .meta({ examples: ["Single-line diagram.pdf"] }),
});

export const JobDocument = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    sha256: z.string(),
    mediaType: z.enum(DOCUMENT_TYPES),
    bytes: z.number().int(),
    name: z.string(),
    personId: z.guid(),
    personName: z.string(),
    receivedAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "JobDocument" });

export const JobDocumentPage = pageOf(JobDocument);
export const JobDocumentQuery = z.strictObject(PAGE_QUERY);
