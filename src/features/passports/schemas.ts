import { z } from "zod";
import { PASSPORT_FIELD_NAMES, passportValueProblem } from "../../domain/passport/fields.ts";
import { plainDate, shortText } from "../../web/fields.ts";

const LINK_MOST = 2048;

export const PassportValue = z
  .strictObject({
    field: z.enum(PASSPORT_FIELD_NAMES),
    value: z
      .union([z.number(), shortText(500)])
      .describe("a number in the field's own unit, or a text; GET tells the units"),
    readOn: plainDate().describe("day on which it was read off the passport"),
  })
  .superRefine(({ field, value }, context) => {
    const message = passportValueProblem(field, value);
    if (message) context.addIssue({ code: "custom", path: ["value"], message });
  });
export type PassportValue = z.infer<typeof PassportValue>;

export const PassportEdit = z
  .strictObject({
    uri: shortText(LINK_MOST).nullable().describe("GS1 Digital Link URI on the battery"),
    values: z
      .array(PassportValue)
      .max(PASSPORT_FIELD_NAMES.length)
      .refine((values) => new Set(values.map(({ field }) => field)).size === values.length, {
        error: "a field comes twice",
      }),
  })
  .meta({
    examples: [
      {
        uri: "https://id.gs1.org/01/09506000134352/21/FS0001",
        values: [{ field: "ratedCapacity", value: 100, readOn: "2026-11-25" }],
      },
    ],
  });
export type PassportEdit = z.infer<typeof PassportEdit>;

export const BatteryPassport = z
  .object({
    unitId: z.guid(),
    uri: z.string().nullable(),
    elements: z
      .array(z.object({ ai: z.string(), value: z.string() }))
      .describe("what the URI says, by GS1 application identifier"),
    serial: z
      .enum(["same", "other", "none"])
      .describe("the serial number in the URI beside the unit's"),
    values: z.array(
      z.object({
        field: z.enum(PASSPORT_FIELD_NAMES),
        value: z.union([z.number(), z.string()]),
        unit: z.string().nullable(),
        point: z.string().describe("of Regulation (EU) 2023/1542"),
        readOn: z.string(),
      }),
    ),
    updatedAt: z.iso.datetime({ offset: true }).nullable(),
    version: z.number().int().describe("0 where none is kept yet"),
  })
  .meta({ id: "BatteryPassport" });
export type BatteryPassport = z.infer<typeof BatteryPassport>;
