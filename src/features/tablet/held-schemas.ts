import { z } from "zod";
import { dateTime, longText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { OpResult, TabletOp } from "./schemas.ts";

export const HeldOperation = z
  .object({
    opId: z.guid(),
    deviceId: z.guid(),
    deviceSeq: z.number().int(),
    kind: z.string(),
    jobId: z.guid().nullable().describe("null where the firm has no such job"),
    jobReference: z.string().nullable(),
    personId: z.guid().nullable().describe("who kept it on the tablet"),
    personName: z.string().nullable(),
    sentById: z.guid(),
    sentByName: z.string(),
    keptAt: dateTime().describe("by the tablet's clock"),
    receivedAt: dateTime(),
    code: z.string(),
    sentence: z.string().describe("why it has no effect"),
    chainBroken: z.boolean(),
    operation: TabletOp,
    decision: z
      .object({
        decision: z.enum(["applied", "dismissed"]),
        decidedAt: dateTime(),
        decidedById: z.guid(),
        decidedByName: z.string(),
        reason: z.string().nullable(),
        reply: OpResult.partial().nullable().describe("applied: what came of it"),
      })
      .nullable(),
  })
  .meta({ id: "HeldOperation" });

export const HeldPage = pageOf(HeldOperation);

export const HeldQuery = z.strictObject({
  ...PAGE_QUERY,
  jobId: z.guid().optional(),
  decided: z.stringbool({ truthy: ["true"], falsy: ["false"] }).optional(),
});

export const HeldParams = z.object({ opId: z.guid().describe("the operation") });

export const Dismissal = z.strictObject({
  reason: longText(2000)
    .describe("why it gets no effect; stays on the record")
    .meta({ examples: ["The same reading was taken again on the day after."] }),
});
