import { z } from "zod";
import { typedLine } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const PHOTO_BYTES_MOST = 15 * 1024 * 1024;

export const PhotoParams = z.object({
  id: z.guid().describe("the job"),
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/, "must be a SHA-256 in lower-case hexadecimal")
    .describe("SHA-256 of the file"),
});

export const PhotoPlace = z.strictObject({
  itemId: typedLine(48).optional().describe("item of the plan it belongs to"),
  subject: typedLine(64).optional(),
});

export const PhotoSize = z.strictObject({
  size: z.enum(["small", "whole"]).default("whole").describe("small: at most 320 pixels a side"),
});

export const Photo = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    sha256: z.string(),
    mediaType: z.string(),
    bytes: z.number().int(),
    widthPx: z.number().int(),
    heightPx: z.number().int(),
    itemId: z.string().nullable(),
    subject: z.string().nullable(),
    personId: z.guid(),
    receivedAt: z.string(),
  })
  .meta({ id: "Photo" });

export const PhotoPage = pageOf(Photo);
export const PhotoQuery = z.strictObject(PAGE_QUERY);
