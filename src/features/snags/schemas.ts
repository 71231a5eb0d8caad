import { z } from "zod";
import { longText, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const SNAG_STATES = ["open", "mended"] as const;

const editable = {
  title: shortText(160).meta({ examples: ["Trunking lid missing beside the isolator"] }),
  detail: longText(4000)
    .nullable()
    .optional()
    .describe("where it is, and what mends it")
    .meta({ examples: ["Left of the meter box, about 300 mm. Bring a 50 × 50 lid."] }),
};

export const NewSnag = z.strictObject(editable);
export const SnagEdit = z.strictObject(editable).partial();

export const Snag = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    jobReference: z.string(),
    title: z.string(),
    detail: z.string().nullable(),
    state: z.enum(SNAG_STATES),
    raisedAt: z.iso.datetime({ offset: true }),
    raisedById: z.guid(),
    raisedByName: z.string(),
    mendedAt: z.iso.datetime({ offset: true }).nullable(),
    mendedById: z.guid().nullable(),
    mendedByName: z.string().nullable(),
    version: z.number().int(),
  })
  .meta({ id: "Snag" });

export const SnagPage = pageOf(Snag);

const state = z.enum(SNAG_STATES).optional();
export const JobSnagQuery = z.strictObject({ ...PAGE_QUERY, state });
export const SnagQuery = z.strictObject({
  ...PAGE_QUERY,
  state,
  jobId: z.guid().optional(),
  siteId: z.guid().optional(),
  title: shortText(160).optional().describe("part of the title"),
});
