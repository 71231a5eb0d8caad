import { z } from "zod";
import { longText, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { JOB_KINDS } from "../jobs/schemas.ts";
import { NewVisit } from "../visits/schemas.ts";

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

/** Evidence that a snag is mended: photos of the job, or who saw it mended, in words. */
export const NewMending = z.strictObject({
  photos: z
    .array(z.string().regex(/^[0-9a-f]{64}$/, "must be a SHA-256 in lower-case hexadecimal"))
    .max(20)
    .default([])
    .describe("photos held on the snag's job or on its follow-up job, by their SHA-256"),
  note: longText(2000)
    .optional()
    .describe("what was done, or who saw it mended and how; enough where no photo can be had")
    .meta({ examples: ["New lid fitted and screwed down."] }),
});
export type NewMending = z.infer<typeof NewMending>;

export const NewFollowUp = z
  .strictObject({
    job: z
      .strictObject({
        kind: z.enum(JOB_KINDS),
        planId: z.guid().describe("its latest published version"),
        title: shortText(160).optional().describe("the snag's title when left out"),
        unitIds: z.array(z.guid()).max(60).default([]),
      })
      .optional()
      .describe("a job of its own at the same site; needed where the snag's job is not open"),
    visit: NewVisit.optional().describe("on that job, or on the snag's own where it is open"),
  })
  .refine(({ job, visit }) => job !== undefined || visit !== undefined, {
    path: ["visit"],
    error: "give a job, a visit, or both",
  });
export type NewFollowUp = z.infer<typeof NewFollowUp>;

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
    mendedPhotos: z.array(z.string()).describe("SHA-256 of the photos that show it"),
    mendedNote: z.string().nullable(),
    followUpJobId: z.guid().nullable().describe("the job that mends it, where it is another one"),
    followUpVisitId: z.guid().nullable().describe("the visit on which it is mended"),
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
