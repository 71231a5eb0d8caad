import { z } from "zod";
import {
  CHECK_RESULTS,
  CONDITIONS,
  DAMAGED_CAUTION,
  UNPACK_CHECKS,
} from "../../domain/kit/unpack-checks.ts";
import { longText, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { NewUnit, Unit } from "../units/schemas.ts";

export const place = () =>
  shortText(60)
    .describe("where it lies, as the firm calls it")
    .meta({ examples: ["Depot, rack 2"] });
export const deliveryNote = () =>
  shortText(60)
    .describe("number of the carrier's or maker's delivery note")
    .meta({ examples: ["DN-55021"] });

const checks = z
  .strictObject(
    Object.fromEntries(UNPACK_CHECKS.map((check) => [check, z.enum(CHECK_RESULTS)])) as Record<
      (typeof UNPACK_CHECKS)[number],
      z.ZodEnum<{ [Name in (typeof CHECK_RESULTS)[number]]: Name }>
    >,
  )
  .describe("what was seen when the box was opened")
  .meta({ examples: [Object.fromEntries(UNPACK_CHECKS.map((check) => [check, "good"]))] });

export const NewGoodsIn = NewUnit.extend({
  checks,
  place: place(),
  deliveryNote: deliveryNote().optional(),
});
export type NewGoodsIn = z.infer<typeof NewGoodsIn>;

export const GoodsIn = z
  .object({
    id: z.guid(),
    unit: Unit,
    condition: z.enum(CONDITIONS),
    place: z.string(),
    deliveryNote: z.string().nullable(),
    caution: z
      .string()
      .nullable()
      .describe("of a damaged unit: read it before anything else")
      .meta({ examples: [DAMAGED_CAUTION] }),
  })
  .meta({ id: "GoodsIn" });

export const Reason = z.strictObject({
  reason: longText(500)
    .describe("why; it stays in the unit's history")
    .meta({ examples: ["Maker's engineer looked at it: casing scratched only."] }),
});
export const NewPlace = z.strictObject({ place: place() });

export const StockUnit = z
  .object({
    id: z.guid(),
    serial: z.string(),
    modelId: z.guid(),
    modelCode: z.string(),
    modelName: z.string(),
    kind: z.string(),
    place: z.string().nullable(),
    quarantinedAt: z.iso.datetime({ offset: true }).nullable(),
    condition: z.enum(CONDITIONS).nullable().describe("at its last goods-in, if it was looked at"),
    deliveryNote: z.string().nullable(),
    receivedAt: z.iso.datetime({ offset: true }).nullable(),
    job: z
      .object({ id: z.guid(), reference: z.string() })
      .nullable()
      .describe("the open job that it is meant for"),
  })
  .meta({ id: "StockUnit" });

export const StockUnitPage = pageOf(StockUnit);
export const StockUnitQuery = z.strictObject({
  ...PAGE_QUERY,
  modelId: z.guid().optional(),
  place: z.string().max(60).optional(),
  serial: z.string().min(1).max(64).optional().describe("the serial or a part of it"),
  quarantined: z.stringbool().optional(),
  free: z.stringbool().optional().describe("true: on no open job"),
});

export const STOCK_STANDINGS = ["free", "reserved", "quarantined"] as const;
export const STANDING_FILTERS = {
  free: { free: true, quarantined: false },
  reserved: { free: false },
  quarantined: { quarantined: true },
} as const;

export const StockCounts = z
  .object({
    items: z.array(
      z.object({
        modelId: z.guid(),
        modelCode: z.string(),
        modelName: z.string(),
        place: z.string().nullable(),
        units: z.number().int(),
        free: z.number().int().describe("on no open job and not in quarantine"),
        quarantined: z.number().int(),
      }),
    ),
    next: z.null(),
  })
  .meta({ id: "StockCounts" });
