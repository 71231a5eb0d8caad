import { z } from "zod";
import { COUNTED_IN, stockCode } from "../../domain/kit/line.ts";
import { longText, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { deliveryNote, place } from "./schemas.ts";

const AMOUNT_MOST = 1_000_000;
/** As many places as are stored. */
const amount = () =>
  z
    .number()
    .max(AMOUNT_MOST)
    .refine((value) => Math.abs(value * 1000 - Math.round(value * 1000)) < 1e-6, {
      error: "has at most three places",
    });

const editable = {
  name: shortText(120).meta({ examples: ["Through-bolt M10 × 90, zinc plated"] }),
  leastAmount: amount()
    .min(0)
    .nullable()
    .optional()
    .describe("below this it is to be ordered")
    .meta({ examples: [40] }),
};

export const NewConsumable = z.strictObject({
  code: stockCode.meta({ examples: ["BOLT-M10-90"] }),
  countedIn: z.enum(COUNTED_IN),
  ...editable,
});
export type NewConsumable = z.infer<typeof NewConsumable>;
export const ConsumableEdit = z
  .strictObject({ ...editable, archived: z.boolean().describe("no longer in use") })
  .partial()
  .describe("Code and unit of counting stay: kit lines and movements rest on them.");
export type ConsumableEdit = z.infer<typeof ConsumableEdit>;

export const Consumable = z
  .object({
    id: z.guid(),
    code: z.string(),
    name: z.string(),
    countedIn: z.enum(COUNTED_IN),
    leastAmount: z.number().nullable(),
    archived: z.boolean(),
    amount: z.number().describe("in stock over all places"),
    places: z.array(z.object({ place: z.string(), amount: z.number() })),
    isLow: z.boolean().describe("below leastAmount"),
    version: z.number().int(),
  })
  .meta({ id: "Consumable" });

export const ConsumablePage = pageOf(Consumable);
export const ConsumableQuery = z.strictObject({
  ...PAGE_QUERY,
  code: z.string().max(40).optional().describe("part of the code"),
  archived: z.stringbool().default(false),
});

export const MOVEMENT_KINDS = [
  ...(["received", "used", "returned", "written-off", "counted", "moved"] as const),
] as const;

export const NewMovement = z
  .strictObject({
    kind: z.enum(MOVEMENT_KINDS),
    amount: amount()
      .min(0)
      .describe("how much; with counted: how much is there now")
      .meta({ examples: [100] }),
    place: place(),
    toPlace: place().optional().describe("with moved: where it goes"),
    jobId: z.guid().optional().describe("with used and returned: the job"),
    deliveryNote: deliveryNote().optional(),
    note: longText(500).optional(),
  })
  .refine(({ kind, amount: value }) => kind === "counted" || value > 0, {
    path: ["amount"],
    error: "must be more than nothing",
  })
  .refine(({ kind, toPlace }) => (kind === "moved") === (toPlace !== undefined), {
    path: ["toPlace"],
    error: "goes with moved, and moved needs it",
  })
  .refine(({ place: from, toPlace }) => from !== toPlace, {
    path: ["toPlace"],
    error: "is where it lies already",
  })
  .refine(({ kind, jobId }) => jobId === undefined || kind === "used" || kind === "returned", {
    path: ["jobId"],
    error: "goes with used and returned only",
  });
export type NewMovement = z.infer<typeof NewMovement>;

export const Movement = z
  .object({
    id: z.guid(),
    kind: z.enum(MOVEMENT_KINDS),
    amount: z.number().describe("what it changed; below zero where it became less"),
    place: z.string(),
    jobId: z.guid().nullable(),
    jobReference: z.string().nullable(),
    deliveryNote: z.string().nullable(),
    note: z.string().nullable(),
    personId: z.guid(),
    personName: z.string(),
    at: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "ConsumableMovement" });
export const MovementPage = pageOf(Movement);
export const MovementQuery = z.strictObject(PAGE_QUERY);
