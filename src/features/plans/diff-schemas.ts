import { z } from "zod";
import { CHANGE_KINDS, CHANGE_WEIGHTS, CONCERNS } from "../../domain/plan/diff-change.ts";

export const DiffQuery = z.strictObject({
  from: z.coerce
    .number()
    .int()
    .min(1)
    .max(1_000_000)
    .optional()
    .describe("number of the version to compare with; the one before if left out"),
});

const count = () => z.number().int();

export const PlanChange = z
  .object({
    of: z.enum(["plan", "stage", "item"]),
    kind: z.enum(CHANGE_KINDS),
    stageId: z.string().optional(),
    itemId: z.string().optional(),
    field: z.string().optional().describe("of a change to one field"),
    before: z.unknown().optional().describe("as it stood in the document"),
    after: z.unknown().optional(),
    weight: z
      .enum(CHANGE_WEIGHTS)
      .describe("stricter and looser only where that can be told from the documents alone"),
    concerns: z
      .array(z.enum(CONCERNS))
      .describe(
        "installer: what to do on site; office: what to bring; manager: what is concedable",
      ),
    sentence: z.string(),
  })
  .meta({ id: "PlanChange" });

export const PlanDiff = z
  .object({
    planId: z.guid(),
    from: count(),
    to: count(),
    changes: z.array(PlanChange).describe("in the order of the later version"),
    weights: z
      .object({ stricter: count(), looser: count(), different: count(), wording: count() })
      .describe("how many changes of each weight"),
    instruments: z
      .object({ toBring: z.array(z.string()), noLonger: z.array(z.string()) })
      .describe("classes that one version asks for and the other does not"),
    openJobs: z
      .object({
        onEarlier: count().describe("that stay pinned to the earlier version"),
        onLater: count(),
        sentence: z.string(),
      })
      .describe("open jobs; a job stays with the version it began with"),
  })
  .meta({ id: "PlanDiff" });
