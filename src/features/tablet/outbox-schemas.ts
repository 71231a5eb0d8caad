import { z } from "zod";

export const OUTBOX_BYTES_MOST = 200 * 1024 * 1024;
/** A photo of 15 MB in base64, and what is around it. */
export const OUTBOX_LINE_BYTES_MOST = 21 * 1024 * 1024;

export const OutboxPhoto = z.strictObject({
  sha256: z.string().regex(/^[0-9a-f]{64}$/, "must be a SHA-256 in lower-case hex"),
  mediaType: z.enum(["image/jpeg", "image/png", "image/webp"]),
  jobId: z.guid(),
  itemId: z.string().min(1).max(48),
  subject: z.string().max(64),
  base64: z.string().min(1),
});
export type OutboxPhoto = z.infer<typeof OutboxPhoto>;

const count = () => z.number().int();

export const OutboxSummary = z
  .object({
    lines: count(),
    ops: z.object({
      stored: count(),
      held: count(),
      repeated: count().describe("the server had them already"),
      early: count().describe("one before them is missing"),
      refused: count(),
    }),
    photos: z.object({ added: count(), repeated: count(), refused: count() }),
    unreadable: count().describe("lines that are neither an operation nor a photo"),
    notes: z
      .array(z.object({ line: z.number().int(), sentence: z.string() }))
      .describe("what did not simply go in, its first 100"),
  })
  .meta({ id: "OutboxSummary" });
export type OutboxSummary = z.infer<typeof OutboxSummary>;
