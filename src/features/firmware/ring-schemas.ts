import { z } from "zod";
import { shortText } from "../../web/fields.ts";
import { Target } from "./schemas.ts";

const SITES_AT_ONCE = 1000;

const fields = {
  name: shortText(60).meta({ examples: ["Trial"] }),
  position: z.coerce.number().int().min(1).max(20).describe("rings open in this order"),
  updatedLeast: z.coerce
    .number()
    .int()
    .min(1)
    .max(100_000)
    .describe("units that have to be updated before the next ring"),
  soakDays: z.coerce.number().int().min(0).max(365).describe("days to wait after that many"),
  failureMost: z.coerce
    .number()
    .min(0)
    .max(1)
    .describe("highest share of failed updates that is borne; above it the ring is held"),
  opensItself: z.boolean().describe("whether the next ring opens without a manager's word"),
};

export const NewRing = z.strictObject({
  ...fields,
  updatedLeast: fields.updatedLeast.default(5),
  soakDays: fields.soakDays.default(7),
  failureMost: fields.failureMost.default(0.02),
  opensItself: fields.opensItself.default(false),
});
export const RingEdit = z.strictObject(fields).partial();
export const RingSites = z.strictObject({
  siteIds: z.array(z.guid()).min(1).max(SITES_AT_ONCE),
});

export const RingRule = z.strictObject({
  region: shortText(40).optional().describe("only sites of this region"),
  modelId: z.guid().optional().describe("only sites with an installed unit of this model"),
  percent: z
    .number()
    .min(1)
    .max(100)
    .default(100)
    .describe("share of these sites, rounded up; which, is by chance, but always the same ones"),
  alsoFromOtherRings: z
    .boolean()
    .default(false)
    .describe("also sites that are in another ring by now"),
  tryOnly: z.boolean().default(false).describe("count them and change nothing"),
});
export type RingRule = z.infer<typeof RingRule>;
export const RingRuleResult = z.object({
  matching: z.number().int().describe("sites of which the share is taken"),
  placed: z.number().int().describe("sites put into the ring, or that would be"),
});

export const Ring = z
  .object({
    id: z.guid(),
    ...fields,
    name: z.string(),
    siteCount: z.number().int(),
    version: z.number().int(),
  })
  .meta({ id: "FirmwareRing" });
export const RingList = z.object({ items: z.array(Ring) });

export const NewRollout = z
  .strictObject({ releaseId: z.guid() })
  .describe("the first ring opens at once, the others wait for it in their order");

export const RolloutTarget = Target.extend({
  ring: z.string().nullable(),
  progress: z
    .object({
      verdict: z.enum(["hold", "pass", "wait"]),
      sentence: z.string(),
      updated: z.number().int(),
      failed: z.number().int(),
      rate: z.number(),
      low: z.number().describe("lower end of the 90 % interval of the failure rate"),
      high: z.number(),
    })
    .nullable()
    .describe("of a ring that was opened"),
}).meta({ id: "FirmwareRolloutTarget" });
export const Rollout = z.object({ items: z.array(RolloutTarget) });

export const Hold = z.strictObject({ reason: shortText(500) });
