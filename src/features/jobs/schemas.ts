import { z } from "zod";
import { longText, plainDate, reference, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const JOB_KINDS = [
  "install",
  "firmware",
  "inspection",
  "swap",
  "removal",
  "survey",
] as const;
export const JOB_STATES = ["open", "closed", "cancelled"] as const;

export const JOB_UNITS_MOST = 60;

const title = shortText(160).meta({ examples: ["Two packs in the garage"] });

export const NewJob = z
  .strictObject({
    siteId: z.guid().meta({ examples: ["019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11"] }),
    kind: z.enum(JOB_KINDS),
    title,
    planVersionId: z.guid().optional().describe("a published version of a plan"),
    planId: z
      .guid()
      .optional()
      .describe("instead of planVersionId: the plan's latest published version")
      .meta({ examples: ["019ac4a1-2222-7cc1-9d6a-0c8f6f0b7a11"] }),
    units: z
      .array(z.strictObject({ unitId: z.guid() }))
      .max(JOB_UNITS_MOST)
      .refine(
        (units) => new Set(units.map(({ unitId }) => unitId)).size === units.length,
        "must not name a unit twice",
      )
      .default([])
      .describe("in the order in which they are worked on"),
  })
  .refine(({ planId, planVersionId }) => (planId === undefined) !== (planVersionId === undefined), {
    path: ["planVersionId"],
    error: "give either planVersionId or planId",
  });
export type NewJob = z.infer<typeof NewJob>;

export const JobEdit = z.strictObject({ title });
export const NewJobUnit = z.strictObject({ unitId: z.guid() });
export const NewSerial = z.strictObject({
  modelId: z.guid(),
  serial: z
    .string()
    .min(1)
    .max(500)
    .describe("as typed or scanned")
    .meta({ examples: ["KV2-0417-93"] }),
  hardwareRevision: shortText(40).optional(),
});
export type NewSerial = z.infer<typeof NewSerial>;
export const JobCancellation = z.strictObject({
  reason: longText(2000)
    .describe("why; it stays in the job's ledger for good, so leave people's names out")
    .meta({ examples: ["The customer is moving house"] }),
});

const time = () => z.iso.datetime({ offset: true });
const place = { id: z.guid(), reference: z.string(), name: z.string().nullable() };

const JobUnitUnit = {
  unitId: z.guid(),
  position: z.number().int(),
  serial: z.string(),
  modelId: z.guid(),
  modelCode: z.string(),
  modelName: z.string(),
  kind: z.string(),
  hardwareRevision: z.string().nullable(),
  state: z.string(),
  siteId: z.guid().nullable(),
  firmwareLevel: z.string().nullable(),
};
export const JobUnit = z.object(JobUnitUnit).meta({ id: "JobUnit" });

const PlanVersionPin = z.object({
  id: z.guid(),
  planId: z.guid(),
  code: z.string(),
  title: z.string(),
  number: z.number().int(),
  sha256: z.string().describe("of the document's canonical form (RFC 8785)"),
});

const ofJob = {
  id: z.guid(),
  reference: reference("J"),
  kind: z.enum(JOB_KINDS),
  title: z.string(),
  state: z.enum(JOB_STATES),
  customer: z.object({ id: z.guid(), reference: z.string(), name: z.string() }),
  planVersion: PlanVersionPin,
  createdAt: time(),
  createdById: z.guid().nullable(),
  version: z.number().int(),
};

export const JobVisit = z.object({
  id: z.guid(),
  startsAt: time(),
  endsAt: time(),
  state: z.string(),
  crew: z.object({ id: z.guid(), name: z.string() }),
});

export const Job = z
  .object({
    ...ofJob,
    site: z.object({
      ...place,
      addressLine: z.string(),
      locality: z.string(),
      postcode: z.string(),
      country: z.string(),
      latitude: z.number(),
      longitude: z.number(),
      timeZone: z.string(),
      supply: z.string(),
      region: z.string(),
    }),
    units: z.array(JobUnit),
    visits: z.array(JobVisit).describe("cancelled ones too, in the order of their start"),
    openSnagCount: z.number().int(),
    closeOut: z
      .object({
        id: z.guid(),
        closedAt: time(),
        closedById: z.guid(),
        ruleVersion: z.string(),
        ledgerSeq: z.number().int(),
        ledgerSha256: z.string(),
        outcomes: z
          .record(z.string(), z.number().int())
          .describe("how many facts of the evaluation had each outcome"),
      })
      .nullable()
      .describe("what a closed job rests on"),
    cancellation: z
      .object({ cancelledAt: time(), cancelledById: z.guid(), reason: z.string() })
      .nullable(),
  })
  .meta({ id: "Job" });

export const JobSummary = z
  .object({
    ...ofJob,
    site: z.object({ ...place, locality: z.string(), timeZone: z.string() }),
    unitCount: z.number().int(),
    openSnagCount: z.number().int(),
    nextVisit: JobVisit.omit({ state: true })
      .nullable()
      .describe("the first booked visit that has not ended"),
  })
  .meta({ id: "JobSummary" });

export const CapturedUnit = z
  .object({
    ...JobUnitUnit,
    received: z.boolean().describe("whether the unit was unknown and has been received by this"),
  })
  .meta({ id: "CapturedUnit" });

export const JobPage = pageOf(JobSummary);
export const JobQuery = z.strictObject({
  ...PAGE_QUERY,
  state: z.enum(JOB_STATES).optional(),
  kind: z.enum(JOB_KINDS).optional(),
  siteId: z.guid().optional(),
  customerId: z.guid().optional(),
  reference: shortText(40).optional().describe("as said aloud, in capitals or not"),
  title: shortText(160).optional().describe("part of the title"),
  day: plainDate()
    .refine((text) => /^(20|21)\d\d-/.test(text), "must lie in the years 2000 to 2199")
    .optional()
    .describe("jobs with a booked visit on this day of their site's calendar"),
  crewId: z.guid().optional().describe("jobs with a booked visit by this crew (on that day)"),
});
