// Requirement: an acceptance limit says exactly which values are accepted and whether its ends
// belong to it. min and max include their end, above and below exclude it; a percentage names its
// basis.
import { z } from "zod";

/** Source of an expression. */
export const cel = z.string().min(1).max(1000);

const Cel = z.strictObject({ cel: cel.describe("CEL expression giving it in the item's unit") });

export const Bound = z
  .union([z.number().describe("in the item's unit"), Cel])
  .describe("a number, or an expression");
export type Bound = z.infer<typeof Bound>;

export const RangeLimit = z
  .strictObject({
    min: Bound.optional().describe("least accepted value, itself accepted"),
    above: Bound.optional().describe("accepted values lie above this"),
    max: Bound.optional().describe("greatest accepted value, itself accepted"),
    below: Bound.optional().describe("accepted values lie below this"),
  })
  .refine(
    (limit) => Object.values(limit).some((bound) => bound !== undefined),
    "A limit names at least one bound",
  )
  .refine(
    (limit) => limit.min === undefined || limit.above === undefined,
    "A limit takes min or above, not both",
  )
  .refine(
    (limit) => limit.max === undefined || limit.below === undefined,
    "A limit takes max or below, not both",
  );

const Tolerance = z
  .union([
    z.strictObject({ absolute: z.number().nonnegative().describe("in the item's unit") }),
    z.strictObject({
      percent: z.number().nonnegative().max(100).describe("percent of the nominal value"),
    }),
  ])
  .describe("how far from it, either way, is still accepted");

export const NominalLimit = z.strictObject({
  nominal: Bound.describe("the value aimed at"),
  tolerance: Tolerance,
});

export const OneOfLimit = z.strictObject({
  oneOf: z
    .array(z.union([z.string().max(200), z.number()]))
    .min(1)
    .max(50)
    .describe("what is accepted"),
});

export const CountLimit = z.strictObject({
  count: z.number().int().min(0).max(100_000).describe("exactly so many"),
});

export const ExpressionLimit = z.strictObject({
  expression: cel.describe("CEL, true when `value` is accepted"),
  words: z
    .string()
    .trim()
    .min(1)
    .max(200)
    .optional()
    .describe('what it means to who reads a verdict, after "needed": "another level than before"'),
});

export const NumberLimit = z
  .union([RangeLimit, NominalLimit, ExpressionLimit])
  .describe("what is accepted: a range, a value with a tolerance, or an expression");
export const CountedLimit = z
  .union([CountLimit, RangeLimit, ExpressionLimit])
  .describe("what is accepted: a number, a range, or an expression");
export const TextLimit = z
  .union([OneOfLimit, ExpressionLimit])
  .describe("what is accepted: a list, or an expression");

export type Limit = z.infer<
  | typeof RangeLimit
  | typeof NominalLimit
  | typeof OneOfLimit
  | typeof CountLimit
  | typeof ExpressionLimit
>;
