// Requirement: a crew that arrives without the right anchor or the right glove drives home again.
// So what a model needs beside its own box, and what a kind of work needs whatever is fitted, is
// data with the place where it stands, never a habit of whoever packs (ISO 9001 7.1.3 asks for the
// means of the work to be provided; from memory).
import { z } from "zod";
import { UNIT_KINDS } from "../plan/repeat.ts";

export const COUNTED_IN = ["piece", "m", "pair", "set", "roll"] as const;
export type CountedIn = (typeof COUNTED_IN)[number];

export const KIT_LINES_MOST = 60;

export const CATEGORIES = [
  "tool",
  "anchor",
  "cable",
  "protective-equipment",
  "consumable",
] as const;
export type LineCategory = (typeof CATEGORIES)[number];
export type KitCategory = LineCategory | "unit";

const text = (most: number) => z.string().trim().min(1).max(most);

export const stockCode = z
  .string()
  .regex(/^[A-Z0-9][A-Z0-9-]{0,39}$/, "must be capitals, digits and hyphens, 40 at most")
  .describe("code of the consumable it is taken from, where it is one");

const line = {
  id: z
    .string()
    .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "must be small letters, digits and hyphens, 40 at most")
    .describe("name of the line, once in its list"),
  category: z.enum(CATEGORIES).describe("what kind of thing it is"),
  name: text(120).describe("what it is, with the size that matters"),
  amount: z.number().positive().max(10_000).describe("how much of it, in countedIn"),
  countedIn: z.enum(COUNTED_IN).describe("piece, metre, pair, set or roll"),
  stockCode: stockCode.optional(),
  note: text(300).optional().describe("what to mind about it"),
  source: text(200).describe("where it stands: the maker's instruction, a standard, or practice"),
};

const onceEach = (lines: readonly { id: string }[]): boolean =>
  new Set(lines.map(({ id }) => id)).size === lines.length;
const ONCE = "must not name a line twice";

/** One line of what a product model needs: for each unit of it. */
export const ModelKitLine = z.strictObject({
  ...line,
  supplied: z.boolean().describe("comes in the maker's box; what does not has to be packed"),
});
export type ModelKitLine = z.infer<typeof ModelKitLine>;
export const ModelKit = z.array(ModelKitLine).max(KIT_LINES_MOST).refine(onceEach, ONCE);

/** One line of what a plan's work needs whatever the model. */
export const PlanKitLine = z.strictObject({
  ...line,
  per: z
    .enum(["job", "unit", "person"])
    .describe("once for the job, for each unit, or for each of the crew"),
  ofKind: z.enum(UNIT_KINDS).optional().describe("with per unit: units of this kind only"),
});
export type PlanKitLine = z.infer<typeof PlanKitLine>;
export const PlanKit = z.array(PlanKitLine).max(KIT_LINES_MOST).refine(onceEach, ONCE);
