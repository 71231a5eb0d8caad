// Requirement: what is asked of every unit, of every fastener group or a number of times is one
// item of the plan, and its answers are told apart by subject.
import { z } from "zod";

export const UNIT_KINDS = ["battery-pack", "inverter", "gateway", "meter", "isolator"] as const;
export type UnitKind = (typeof UNIT_KINDS)[number];

const PerUnit = z.strictObject({
  per: z.literal("unit"),
  ofKind: z.enum(UNIT_KINDS).optional().describe("units of this kind only; all unless said"),
});

const FastenerGroup = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z0-9-]{1,40}$/)
    .describe("name of the group in answers"),
  title: z.string().trim().min(1).max(120).describe("where the group is"),
});

const PerFastenerGroup = z.strictObject({
  per: z.literal("fastener-group"),
  groups: z.array(FastenerGroup).min(1).max(60).describe("the groups, in order"),
});

const Times = z.strictObject({
  times: z.number().int().min(1).max(200).describe("how often it is asked"),
});

export const Repeat = z
  .union([PerUnit, PerFastenerGroup, Times])
  .describe("asked once per unit, per fastener group, or a number of times");
export type Repeat = z.infer<typeof Repeat>;
