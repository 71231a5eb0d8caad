import { z } from "zod";
import { longText } from "../../web/fields.ts";
import { OUTCOMES } from "../answers/schemas.ts";

export const Blocker = z
  .object({
    itemId: z.string(),
    stageId: z.string(),
    subject: z.string(),
    subjectLabel: z.string().describe("model and serial of the unit, or the fastener group"),
    unitId: z.string().optional(),
    code: z.string(),
    title: z.string(),
    sentence: z.string().describe("what was read and what was needed"),
    toClear: z.string().describe("what clears it"),
    safetyCritical: z.boolean(),
    concedable: z.boolean().describe("whether a manager may release it by concession"),
  })
  .meta({ id: "Blocker" });

export const Fact = z
  .object({
    itemId: z.string(),
    subject: z.string(),
    holdPoint: z.boolean(),
    safetyCritical: z.boolean(),
    outcome: z.enum(OUTCOMES),
    clears: z.boolean(),
    code: z.string(),
    sentence: z.string(),
    answerId: z.string().optional(),
    concessionId: z.string().optional(),
  })
  .meta({ id: "Fact" });

export const Evaluation = z
  .object({
    open: z.boolean().describe("whether the gate is open: the job could be closed now"),
    blockers: z.array(Blocker),
    facts: z.array(Fact),
    ruleVersion: z.string(),
  })
  .meta({ id: "Evaluation" });

export const CloseOut = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    planVersionId: z.guid(),
    ruleVersion: z.string(),
    closedAt: z.string(),
    closedById: z.guid(),
    ledgerSeq: z.number().int(),
    ledgerSha256: z
      .string()
      .describe("head of the job's ledger at the close-out; print it on the certificate"),
    facts: z.array(Fact),
  })
  .meta({ id: "CloseOut" });

export const ReopeningRequest = z.strictObject({
  reason: longText(2000).describe("why the closed job is opened again; stays on the record"),
});

export const Reopening = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    closeOutId: z.guid(),
    reason: z.string(),
    reopenedById: z.guid(),
    reopenedAt: z.string(),
  })
  .meta({ id: "Reopening" });
