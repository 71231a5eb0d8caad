import { z } from "zod";
import { CONCESSION_STATES } from "../../domain/corrective/concession-state.ts";
import { longText, plainDate, typedLine, typedText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const NewConcession = z
  .strictObject({
    itemId: typedLine(48).min(1),
    subject: typedLine(64).default(""),
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

/** How the register is filtered, on its page, in its export and over the interface. */
export const REGISTER_FILTERS = {
  state: z
    .enum(CONCESSION_STATES)
    .optional()
    .describe("expiring: its last day is within 30 days, by the site's calendar"),
  grantedById: z.guid().optional(),
  jobId: z.guid().optional(),
  siteId: z.guid().optional(),
  q: typedText(120)
    .optional()
    .describe("part of the job's or site's reference, the item or the reason"),
};
export const RegisterQuery = z.strictObject({ ...PAGE_QUERY, ...REGISTER_FILTERS });

export const RegisteredConcession = Concession.extend({
  state: z.enum(CONCESSION_STATES),
  jobReference: z.string(),
  siteId: z.guid(),
  siteReference: z.string(),
  itemTitle: z.string().describe("as the job's plan says it"),
  serial: z.string().nullable().describe("of the unit it is for, where it is for one"),
  grantedByName: z.string(),
  revokedByName: z.string().nullable(),
}).meta({ id: "RegisteredConcession" });
export const RegisterPage = pageOf(RegisteredConcession);
