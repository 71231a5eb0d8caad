import { z } from "zod";
import { longText, plainDate } from "../../web/fields.ts";

export const NewConcession = z
  .strictObject({
    itemId: z.string().min(1).max(48),
    subject: z.string().max(64).default(""),
    reason: longText(2000).describe("why it is released although it does not conform"),
    expiresOn: plainDate().optional().describe("last day it holds, by the site's calendar"),
  })
  .meta({
    examples: [
      { itemId: "wall_gap", subject: "", reason: "Niche of 8.5 mm, air drawn from above." },
    ],
  });

export const Concession = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    itemId: z.string(),
    subject: z.string(),
    reason: z.string(),
    grantedById: z.guid(),
    grantedAt: z.string(),
    expiresOn: z.string().nullable(),
    revokedAt: z.string().nullable(),
  })
  .meta({ id: "Concession" });

export const ConcessionList = z.object({ items: z.array(Concession), next: z.null() });
