// Packs of a bank tell each other apart by rotary and DIP switches. The product model carries the
// maker's switch map as data (`switch-map/1`); the maker's instructions are its source and prevail.
import { z } from "zod";
import { lineSchema } from "../siting/line.ts";

const idSchema = z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "use a-z, 0-9 and hyphens");
const nameSchema = lineSchema(80);

/** The most packs a map may speak of; a bound, not a figure of any maker. */
export const MOST_PACKS = 64;
const count = z.int().min(1).max(MOST_PACKS);

const switchSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("rotary"),
    id: idSchema,
    label: nameSchema,
    /** Printed positions in order of value: `["0", … "F"]`. */
    positions: z
      .array(z.string().regex(/^[0-9A-Z]{1,2}$/))
      .min(2)
      .max(16),
  }),
  z.strictObject({
    kind: z.literal("dip"),
    id: idSchema,
    label: nameSchema,
    levers: z.int().min(1).max(12),
    /** Which way a lever points when on, as the board is seen upright. */
    onIs: z.enum(["up", "down"]),
  }),
  z.strictObject({
    kind: z.literal("termination"),
    id: idSchema,
    label: nameSchema,
    onIs: z.enum(["up", "down"]),
  }),
]);

/** Rotary: printed position. DIP: 0 (off) or 1 (on) a lever, lever 1 first. Else on or off. */
const positionText = z.string().regex(/^([0-9A-Z]{1,2}|[01]{1,12}|on|off)$/);

const rowsSchema = z.strictObject({
  form: z.literal("rows"),
  rows: z
    .array(
      z.strictObject({
        /** Bank sizes the row is for; all where left out. */
        packCount: z.strictObject({ minimum: count, maximum: count }).optional(),
        /** Pack position, or `last`: what differs on the last pack, over its numbered row. */
        position: z.union([count, z.literal("last")]),
        settings: z.record(idSchema, positionText),
      }),
    )
    .min(1)
    .max(1000),
});

const partRule = z.discriminatedUnion("by", [
  /** Value = pack position + add. */
  z.strictObject({ by: z.literal("position"), add: z.int().min(-MOST_PACKS).max(MOST_PACKS) }),
  /** Value = number of packs + add on the first pack, 0 on the others. */
  z.strictObject({
    by: z.literal("pack-count-on-first"),
    add: z.int().min(-MOST_PACKS).max(MOST_PACKS),
  }),
  z.strictObject({ by: z.literal("fixed"), position: positionText }),
  /** On at the named end or ends of the chain, off elsewhere. */
  z.strictObject({ by: z.literal("ends"), which: z.enum(["first", "last", "both"]) }),
]);
export type PartRule = z.infer<typeof partRule>;

/** Levers in order of value, least significant first; all levers where left out. */
const leverList = z.array(z.int().min(1).max(12)).min(1).max(12);

const formulaSchema = z.strictObject({
  form: z.literal("formula"),
  parts: z
    .array(z.strictObject({ switch: idSchema, levers: leverList.optional(), rule: partRule }))
    .min(1)
    .max(30),
});

const protocolSchema = z.strictObject({
  id: idSchema,
  name: nameSchema,
  packCount: z.strictObject({ minimum: count, maximum: count }),
  settings: z.discriminatedUnion("form", [rowsSchema, formulaSchema]),
  /** Where the address is read back from; never taken on trust from the rule that set it. */
  address: z.strictObject({ switch: idSchema, levers: leverList.optional() }),
  /** Whether a missing address between two packs is a fault. */
  gapsAllowed: z.boolean(),
});

export const switchMapShape = z.strictObject({
  schema: z.literal("switch-map/1"),
  id: idSchema,
  productModel: nameSchema,
  /** Document and edition the map was taken from. */
  source: nameSchema,
  switches: z.array(switchSchema).min(1).max(8),
  protocols: z.array(protocolSchema).min(1).max(20),
});

export type SwitchMap = z.infer<typeof switchMapShape>;
export type SwitchMapInput = z.input<typeof switchMapShape>;
export type Switch = SwitchMap["switches"][number];
export type Protocol = SwitchMap["protocols"][number];
