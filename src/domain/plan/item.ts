// Requirement: an item says what to do, why, with what care, what is accepted, and whether work may
// go on without it (hold point, ISO 9000 family: inspection and test plans).
import { z } from "zod";
import { CountedLimit, cel, NumberLimit, OneOfLimit, TextLimit } from "./limit.ts";
import { Repeat } from "./repeat.ts";
import { sequenceFields } from "./sequence.ts";

export { UNIT_KINDS, type UnitKind } from "./repeat.ts";

export const DECISION_RULES = ["simple", "guarded", "four-way"] as const;
export type DecisionRule = (typeof DECISION_RULES)[number];

/** The usual classes of instruments; a firm may name others. */
export const INSTRUMENT_CLASSES = [
  ...["multimeter", "insulation-tester", "loop-tester", "rcd-tester", "low-ohm-meter"],
  ...["earth-tester", "installation-tester", "clamp-meter", "voltage-tester", "irradiance-meter"],
  ...["torque-wrench", "torque-screwdriver", "thermometer", "thermal-camera"],
  ...["tape", "depth-gauge", "feeler-gauge", "level", "stopwatch", "other"],
] as const;

export const ItemId = z
  .string()
  .regex(/^[a-z][a-z0-9_]{0,47}$/, "must be lower-case letters, digits and _, from a letter")
  .describe("name of the item, as expressions call it");

const line = (most: number) => z.string().trim().min(1).max(most);
const unit = z.string().max(12).describe("unit of the reading and of the limit, such as V or N·m");
const decisionRule = z
  .enum(DECISION_RULES)
  .optional()
  .describe("how uncertainty counts for this item; the plan's rule unless said");

const common = {
  id: ItemId,
  title: line(160).describe("what it is called in lists"),
  do: line(1000).describe("what to do"),
  why: line(1000).optional().describe("why it matters"),
  cautions: z
    .array(line(500))
    .max(10)
    .optional()
    .describe("what to take care of, shown before the work"),
  toClear: line(500).optional().describe("what clears a failure, in the trade's words"),
  holdPoint: z.boolean().describe("work may not be closed out past it until it is met"),
  safetyCritical: z.boolean().optional().describe("a hold point that nobody can concede"),
  repeat: Repeat.optional(),
  appliesWhen: cel.optional().describe("CEL, true when the item applies"),
  after: z
    .array(ItemId)
    .max(30)
    .optional()
    .describe("items that must be met before this one is done"),
  sequence: z
    .enum(["block", "mark"])
    .optional()
    .describe(
      "block: out of sequence it does not count until done again; mark: it counts and is marked",
    ),
  evidence: z
    .strictObject({
      photos: z.number().int().min(1).max(20).optional().describe("photos to take, at least"),
      note: z.boolean().optional().describe("whether a note must be written"),
    })
    .optional()
    .describe("what must come with the answer"),
  instrument: z
    .strictObject({
      class: z
        .string()
        .regex(/^[a-z][a-z-]{1,39}$/)
        .describe("such as multimeter or torque-wrench"),
    })
    .optional()
    .describe("class of instrument that must have been used, in calibration on the day"),
  ...sequenceFields,
};

const Confirm = z.strictObject({ kind: z.literal("confirm"), ...common });

const Measure = z.strictObject({
  kind: z.literal("measure"),
  ...common,
  unit,
  limit: NumberLimit,
  decisionRule,
});

const Tighten = z.strictObject({
  kind: z.literal("tighten"),
  ...common,
  points: z.number().int().min(1).max(200).describe("fasteners in the group, each to be tightened"),
  unit,
  limit: NumberLimit.describe("limit on the wrench's setting"),
  decisionRule,
});

const Count = z.strictObject({ kind: z.literal("count"), ...common, limit: CountedLimit });

const Choose = z.strictObject({
  kind: z.literal("choose"),
  ...common,
  options: z.array(line(200)).min(2).max(30).describe("what can be chosen"),
  limit: OneOfLimit.optional().describe("which of the options are accepted; all unless said"),
});

const Identify = z.strictObject({
  kind: z.literal("identify"),
  ...common,
  what: z
    .enum(["serial", "firmware-level"])
    .describe("what is read off the unit; a serial must be that of the unit"),
  limit: TextLimit.optional(),
});

const SwitchPosition = z.strictObject({
  switch: line(60).describe("name of the switch or parameter"),
  position: z
    .union([line(60), z.strictObject({ cel: cel.describe("CEL, giving a text or a number") })])
    .describe("where it must stand, as text or as an expression"),
});

const SetSwitches = z.strictObject({
  kind: z.literal("set"),
  ...common,
  positions: z.array(SwitchPosition).min(1).max(40).describe("switches with their positions"),
});

const Photo = z.strictObject({
  kind: z.literal("photo"),
  ...common,
  photos: z.number().int().min(1).max(20).describe("photos to take, at least"),
});

const Sign = z.strictObject({
  kind: z.literal("sign"),
  ...common,
  whose: z.enum(["customer", "installer"]).describe("who signs"),
});

export const Item = z.discriminatedUnion("kind", [
  ...[Confirm, Measure, Tighten, Count, Choose, Identify, SetSwitches, Photo, Sign],
] as const);
export type Item = z.infer<typeof Item>;
export type ItemKind = Item["kind"];
export type ItemOf<Kind extends ItemKind> = Extract<Item, { kind: Kind }>;
