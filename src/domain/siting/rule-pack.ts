// Location rules differ by region, edition and adopting authority, and some figures are known only
// at second hand. They are therefore data, each with its source, edition and how sure we are of
// it. A firm's own pack is validated by the same schema as the packs that come with the product.
import { z } from "zod";
import { lineSchema } from "./line.ts";
import { packProblems } from "./rule-pack-check.ts";
import { idSchema, nameSchema } from "./survey.ts";
import { FEATURE_KINDS, OPENS_TO, ROOM_KINDS } from "./vocabulary.ts";

export const CERTAINTIES = ["seen in a secondary page", "memory", "unsure", "own rule"] as const;
export type Certainty = (typeof CERTAINTIES)[number];

const lengthMm = z.number().min(0).max(100_000);
const sentence = lineSchema(500);

const sourceSchema = z.strictObject({
  document: nameSchema,
  edition: nameSchema,
  clause: nameSchema,
});
export type RuleSource = z.infer<typeof sourceSchema>;

const base = {
  id: idSchema,
  title: nameSchema,
  source: sourceSchema,
  /** The same rule under another edition: other clause number, same figures. */
  sourceByEdition: z.record(idSchema, sourceSchema).optional(),
  certainty: z.enum(CERTAINTIES),
  caution: sentence.optional(),
  /** Applies only under one of these editions; under all where left out. */
  editions: z.array(idSchema).min(1).max(10).optional(),
  /** Applies only to units in such places; everywhere where left out. */
  rooms: z.array(z.enum(ROOM_KINDS)).min(1).optional(),
};

const matchSchema = z.strictObject({
  kind: z.enum(FEATURE_KINDS),
  opensTo: z.array(z.enum(OPENS_TO)).min(1).optional(),
});

/** `zone`: a rectangle around the unit that must stay clear. `straight-line`: shortest distance. */
const distanceSchema = z.discriminatedUnion("shape", [
  z.strictObject({
    shape: z.literal("zone"),
    besideMm: lengthMm,
    aboveMm: lengthMm,
    belowMm: lengthMm,
  }),
  z.strictObject({ shape: z.literal("straight-line"), minimumMm: lengthMm }),
]);
export type RequiredDistance = z.infer<typeof distanceSchema>;

const clearance = z.strictObject({
  kind: z.literal("clearance"),
  ...base,
  to: z.array(matchSchema).min(1).max(FEATURE_KINDS.length),
  distance: distanceSchema,
  /** An exit wider than this is exempt. */
  exemptExitWiderThanMm: lengthMm.optional(),
});

const forbiddenRoom = z.strictObject({
  kind: z.literal("forbidden-room"),
  ...base,
  forbidden: z.array(z.enum(ROOM_KINDS)).default([]),
  /** Where given, every place outside this list is forbidden too. */
  permitted: z.array(z.enum(ROOM_KINDS)).min(1).optional(),
});

const aggregateEnergy = z.strictObject({
  kind: z.literal("aggregate-energy"),
  ...base,
  rooms: z.array(z.enum(ROOM_KINDS)).min(1),
  maximumKWh: z.number().positive(),
});

const unitEnergy = z.strictObject({
  kind: z.literal("unit-energy"),
  ...base,
  /** The rule begins above this energy. */
  appliesAboveKWh: z.number().min(0),
  maximumKWh: z.number().positive(),
});

const unitSeparation = z.strictObject({
  kind: z.literal("unit-separation"),
  ...base,
  minimumMm: lengthMm,
  /** A fire test of both units may allow less. */
  fireTestMayReduce: z.boolean(),
});

const workingSpace = z.strictObject({
  kind: z.literal("working-space"),
  ...base,
  widthMm: lengthMm,
  heightMm: lengthMm,
  /** Depth by voltage to ground (rows, ascending) and by what faces the unit (1, 2, 3). */
  depths: z
    .array(
      z.strictObject({
        upToV: z.number().positive(),
        condition1Mm: lengthMm,
        condition2Mm: lengthMm,
        condition3Mm: lengthMm,
      }),
    )
    .min(1)
    .max(10),
});

const barrier = z.strictObject({
  kind: z.literal("barrier"),
  ...base,
  whenWallBacksOnto: z.array(z.enum(ROOM_KINDS)).min(1),
  besideMm: lengthMm,
  aboveMm: lengthMm,
});

const ambient = z.strictObject({
  kind: z.literal("ambient"),
  ...base,
  minimumC: z.number(),
  maximumC: z.number(),
});

const ruleSchema = z.discriminatedUnion("kind", [
  clearance,
  forbiddenRoom,
  aggregateEnergy,
  unitEnergy,
  unitSeparation,
  workingSpace,
  barrier,
  ambient,
]);

const editionSchema = z.strictObject({
  id: idSchema,
  family: idSchema,
  title: nameSchema,
  isDefault: z.boolean(),
});

export const rulePackSchema = z
  .strictObject({
    schema: z.literal("siting-rule-pack/1"),
    id: idSchema,
    region: idSchema,
    title: nameSchema,
    caution: sentence,
    editions: z.array(editionSchema).max(20),
    rules: z.array(ruleSchema).min(1).max(40),
  })
  .superRefine((pack, refinement) => {
    for (const { path, message } of packProblems(pack)) {
      refinement.addIssue({ code: "custom", path, message });
    }
  });

export type RulePack = z.infer<typeof rulePackSchema>;
export type Rule = RulePack["rules"][number];
export type RuleOf<K extends Rule["kind"]> = Extract<Rule, { kind: K }>;

/**
 * Reads a rule pack (`siting-rule-pack/1`), the firm's own or ours alike.
 * @returns the pack, or every problem with its place, one a line.
 */
export function parseRulePack(
  input: unknown,
): { ok: true; pack: RulePack } | { ok: false; problem: string } {
  const parsed = rulePackSchema.safeParse(input);
  if (parsed.success) return { ok: true, pack: parsed.data };
  const lines = parsed.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`);
  return { ok: false, problem: lines.join("\n") };
}
