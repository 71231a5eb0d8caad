import { z } from "zod";
import { VERDICTS } from "../../domain/corrective/follow-up.ts";
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
  effectDueOn: plainDate()
    .nullable()
    .optional()
    .describe("the day by which somebody sees whether the correction works"),
  effectById: z.guid().nullable().optional().describe("who sees whether it works"),
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
  auditSampleId: z
    .guid()
    .optional()
    .describe("the audit sample that `jobId` was drawn for, where this is a finding of it"),
});
export type NewNonconformance = z.infer<typeof NewNonconformance>;

export const NonconformanceEdit = z
  .strictObject({ ...editable, state: z.enum(STATES) })
  .partial()
  .describe("Closed needs a cause and an effect check whose verdict was effective.");
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
    auditSampleId: ref.describe("the audit sample that it is a finding of"),
    cause: z.string().nullable(),
    containment: z.string().nullable(),
    correction: z.string().nullable(),
    effectCheck: z.string().nullable().describe("how it was seen that the correction works"),
    effectDueOn: z.string().nullable(),
    effectById: ref,
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
  effectOverdue: z
    .literal("true")
    .optional()
    .describe("only those whose effect was to be seen by a day that is over, and not closed"),
  siteId: z.guid().optional(),
  releaseId: z.guid().optional(),
});

export const NewEffectCheck = z
  .strictObject({
    verdict: z.enum(VERDICTS),
    note: longText(4000).describe("how it was seen that the correction works, or does not"),
  })
  .describe("Effective closes the nonconformance; not effective opens it for another correction.")
  .meta({
    examples: [{ verdict: "effective", note: "Twenty torque checks since within limits." }],
  });
export type NewEffectCheck = z.infer<typeof NewEffectCheck>;

export const EffectCheck = z
  .object({
    id: z.guid(),
    nonconformanceId: z.guid(),
    verdict: z.enum(VERDICTS),
    note: z.string(),
    cause: z.string().describe("as it was written when the check was made"),
    correction: z.string().describe("the one that was checked"),
    checkedById: z.guid(),
    checkedByName: z.string(),
    checkedAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "EffectCheck" });
export const EffectCheckList = z.object({ items: z.array(EffectCheck), next: z.null() });

export const FailedUpdate = z.strictObject({
  unitId: z.guid(),
  note: longText(2000).optional().describe("what was seen"),
});
