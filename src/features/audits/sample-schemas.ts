import { z } from "zod";
import { SAMPLE_STATES } from "../../domain/sampling/sample-state.ts";
import { dateTime, longText, reference } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { inOrder, SampleQuery } from "./schemas.ts";

export const NewSample = SampleQuery.extend({
  limit: z.union([
    SampleQuery.shape.limit,
    z.number().transform(String).pipe(SampleQuery.shape.limit),
  ]),
  seed: SampleQuery.shape.seed.optional().describe("a new one where none is given"),
})
  .strict()
  .refine(inOrder, { path: ["to"], error: "is before the first" })
  .meta({ examples: [{ from: "2026-01-01", to: "2026-06-30", limit: "2.5" }] });

const sample = {
  id: z.guid(),
  reference: reference("A"),
  from: z.string(),
  to: z.string(),
  limit: z.number().describe("acceptance quality limit, per cent nonconforming"),
  seed: z.string().describe("with the lot, it draws the same jobs again"),
  lotSize: z.number().int(),
  letter: z.string().describe("code letter by lot size"),
  sampleSize: z.number().int(),
  accept: z.number().int().describe("most jobs with a finding with which the lot is accepted"),
  looked: z.number().int().describe("jobs looked at"),
  found: z.number().int().describe("jobs with a finding"),
  state: z
    .enum(SAMPLE_STATES)
    .describe("open until every job was looked at, or too many have a finding"),
  isWithinAudit: z.boolean().describe("drawn from what a scoped auditor may see"),
  keptById: z.guid(),
  keptByName: z.string(),
  keptAt: dateTime(),
};

export const AuditSample = z.object(sample).meta({ id: "AuditSample" });
export const AuditSamplePage = pageOf(AuditSample);
export const AuditSampleQuery = z.strictObject(PAGE_QUERY);

export const AuditLook = z
  .object({
    id: z.guid(),
    personId: z.guid(),
    personName: z.string(),
    remark: z.string().nullable(),
    at: dateTime(),
  })
  .meta({ id: "AuditLook" });

export const AuditSampleWhole = z
  .object({
    ...sample,
    jobs: z.array(
      z.object({
        position: z.number().int().describe("in the draw"),
        jobId: z.guid(),
        reference: z.string(),
        title: z.string(),
        closedAt: dateTime().describe("when it was closed, as it was drawn"),
        looks: z.array(AuditLook).describe("the latest first"),
        findings: z.array(z.object({ id: z.guid(), reference: z.string(), state: z.string() })),
      }),
    ),
  })
  .meta({ id: "AuditSampleWhole" });

export const NewLook = z
  .strictObject({ remark: longText(2000).optional().describe("what was seen") })
  .meta({ examples: [{ remark: "Torque readings and photos agree." }] });

export const LookParams = z.object({ id: z.guid(), jobId: z.guid() });
