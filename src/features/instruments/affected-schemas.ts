import { z } from "zod";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { Verdict } from "../answers/schemas.ts";

export const AffectedReading = z
  .object({
    id: z.guid().describe("of the answer"),
    jobId: z.guid(),
    jobReference: z.string(),
    jobState: z.enum(["open", "closed", "cancelled"]),
    siteId: z.guid(),
    siteReference: z.string(),
    itemId: z.string(),
    itemTitle: z.string(),
    subject: z.string(),
    takenAt: z.string(),
    verdict: Verdict.describe("as it was kept; it stays"),
    cause: z.enum(["calibration-failed", "recheck-failed", "overload", "dropped"]),
    found: z.string().describe("day of the calibration, or time of the event"),
    replaced: z
      .boolean()
      .describe("whether a later attempt with a sound instrument has replaced it"),
  })
  .meta({ id: "AffectedReading" });

export const AffectedReadingPage = pageOf(AffectedReading);
export const AffectedReadingQuery = z.strictObject({
  ...PAGE_QUERY,
  replaced: z.stringbool().optional(),
});

export const RetestRequest = z
  .strictObject({
    planVersionId: z.guid().optional().describe("a published version of a plan"),
    planId: z.guid().optional().describe("instead: the plan's latest published version"),
  })
  .refine(({ planId, planVersionId }) => planId === undefined || planVersionId === undefined, {
    path: ["planVersionId"],
    error: "give either planVersionId or planId",
  })
  .meta({ examples: [{ planId: "019ac4a1-2222-7cc1-9d6a-0c8f6f0b7a11" }] })
  .nullish()
  .describe("the plan that the affected job had, if left out");

export const RetestJob = z
  .object({
    jobId: z.guid(),
    reference: z.string(),
    title: z.string(),
    state: z.enum(["open", "closed"]),
    planVersionId: z.guid(),
    siteId: z.guid(),
    siteReference: z.string(),
    originJobId: z.guid().describe("the last job with a reading in doubt at the site"),
    opened: z.boolean().describe("whether this request opened it"),
  })
  .meta({ id: "RetestJob" });

export const RetestJobs = z
  .object({
    items: z.array(RetestJob).describe("of this instrument, the newest first"),
    skipped: z
      .array(z.object({ siteId: z.guid(), siteReference: z.string(), reason: z.string() }))
      .describe("affected sites where no job can be opened"),
    remaining: z.number().int().describe("affected sites still without one: send it again"),
  })
  .meta({ id: "RetestJobs" });
