import { z } from "zod";
import { LANGUAGES } from "../../language/languages.ts";

export const DAYS_USUAL = 30;
const DAYS_MOST = 365;

export const NewHandoverLink = z.strictObject({
  days: z.coerce
    .number()
    .int()
    .min(1)
    .max(DAYS_MOST)
    .default(DAYS_USUAL)
    .describe("how long it opens"),
  language: z
    .enum(LANGUAGES)
    .optional()
    .describe("of page, papers and mail; the customer's, else the firm's, unless said"),
  mail: z.boolean().default(false).describe("whether the customer gets it by mail"),
});
export type NewHandoverLink = z.infer<typeof NewHandoverLink>;

export const HandoverLink = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    language: z.enum(LANGUAGES),
    mailId: z.guid().nullable().describe("of the mail that took it to the customer"),
    createdById: z.guid(),
    createdAt: z.iso.datetime({ offset: true }),
    expiresAt: z.iso.datetime({ offset: true }),
    revokedAt: z.iso.datetime({ offset: true }).nullable(),
    opened: z.int().describe("how often a paper was opened by it"),
    openedAt: z.iso.datetime({ offset: true }).nullable(),
  })
  .meta({ id: "HandoverLink" });

export const MadeHandoverLink = HandoverLink.extend({
  url: z.url().describe("shown this once: only a hash of its secret is kept"),
}).meta({ id: "MadeHandoverLink" });
