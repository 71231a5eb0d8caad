import { z } from "zod";
import { longText, plainDate, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const KINDS = ["firmware-update", "audit", "work", "material", "other"] as const;
export const STATES = ["open", "contained", "closed"] as const;

const editable = {
  title: shortText(200),
  cause: longText(4000).nullable().optional().describe("why it happened, found out, not guessed"),
  containment: longText(4000)
    .nullable()
    .optional()
    .describe("what keeps it from doing more harm meanwhile"),
  correction: longText(4000).nullable().optional().describe("what was changed so that it ends"),
  effectCheck: longText(4000)
    .nullable()
    .optional()
    .describe("how it was seen that the correction works"),
  dueOn: plainDate().nullable().optional(),
  ownerId: z.guid().nullable().optional().describe("who sees to it"),
};

export const NewNonconformance = z.strictObject({
  kind: z.enum(KINDS),
  ...editable,
  siteId: z.guid().optional(),
  unitId: z.guid().optional(),
  jobId: z.guid().optional(),
  releaseId: z.guid().optional(),
});
export type NewNonconformance = z.infer<typeof NewNonconformance>;

export const NonconformanceEdit = z
  .strictObject({ ...editable, state: z.enum(STATES) })
  .partial()
  .describe("Closed needs a cause and an effect check.");
export type NonconformanceEdit = z.infer<typeof NonconformanceEdit>;

const ref = z.guid().nullable();

export const Nonconformance = z
  .object({
    id: z.guid(),
    reference: z.string(),
    kind: z.string(),
    title: z.string(),
    state: z.enum(STATES),
    siteId: ref,
    unitId: ref,
    jobId: ref,
    releaseId: ref,
    cause: z.string().nullable(),
    containment: z.string().nullable(),
    correction: z.string().nullable(),
    effectCheck: z.string().nullable(),
    dueOn: z.string().nullable(),
    ownerId: ref,
    openedById: ref,
    openedAt: z.string(),
    closedAt: z.string().nullable(),
    version: z.number().int(),
  })
  .meta({ id: "Nonconformance" });

export const NonconformancePage = pageOf(Nonconformance);
export const NonconformanceQuery = z.strictObject({
  ...PAGE_QUERY,
  state: z.enum(STATES).optional(),
  kind: z.enum(KINDS).optional(),
  overdue: z.literal("true").optional().describe("only those past their day and not closed"),
  siteId: z.guid().optional(),
  releaseId: z.guid().optional(),
});

export const FailedUpdate = z.strictObject({
  unitId: z.guid(),
  note: longText(2000).optional().describe("what was seen"),
});
