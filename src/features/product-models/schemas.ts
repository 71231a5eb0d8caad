import { z } from "zod";
import { switchMapSchema } from "../../domain/bank/parse-switch-map.ts";
import { FIRMWARE_SCHEMES } from "../../domain/firmware/levels.ts";
import { CHECK_SCHEMES } from "../../domain/identifiers/check-schemes.ts";
import { ModelKit } from "../../domain/kit/line.ts";
import { refuseFaults, shortText, typedLine, typedText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const MODEL_KINDS = ["battery-pack", "inverter", "gateway", "meter", "isolator"] as const;
const ATTRIBUTES_MOST = 60;
/** Names that mean something to every object, whatever it holds. */
const RESERVED_NAMES = ["__proto__", "constructor", "prototype"];

const attributeName = z
  .string()
  .regex(/^[a-zA-Z][a-zA-Z0-9_]{0,39}$/, "must be a letter, then letters, digits or _, 40 at most")
  .refine((name) => !RESERVED_NAMES.includes(name), "is a reserved name: choose another");

const attributes = z
  .record(attributeName, z.union([z.number(), typedLine(200), z.boolean()]))
  .refine(
    (record) => Object.keys(record).length <= ATTRIBUTES_MOST,
    `must have at most ${ATTRIBUTES_MOST} entries`,
  )
  .describe("what plans may reckon with, by name")
  .meta({ examples: [{ nominalVoltageV: 51.2, usableEnergyKwh: 4.8, hasHeater: false }] });

const kit = ModelKit.superRefine(refuseFaults())
  .describe(
    "what a unit of it needs: lines that the maker supplies, and lines that have to be packed",
  )
  .meta({
    examples: [
      [
        {
          ...{ id: "wall-anchor", category: "anchor", name: "Through-bolt M10 × 90" },
          ...{ amount: 4, countedIn: "piece", stockCode: "BOLT-M10-90", supplied: false },
          source: "Fellside installation sheet, edition 3",
        },
      ],
    ],
  });

const editable = {
  kit,
  name: shortText(120).meta({ examples: ["Cairn 48 battery pack"] }),
  maker: shortText(120).meta({ examples: ["Fellside Storage"] }),
  attributes,
  serialMask: typedLine(200)
    .describe("# digit, @ letter, * either, \\x the character x itself, {n} repeats")
    .meta({ examples: ["FS@#{8}"] }),
  serialCheck: z
    .enum(CHECK_SCHEMES)
    .describe("check digit at the end of a serial, where it has one"),
  firmwareScheme: z.enum(FIRMWARE_SCHEMES).describe("how its firmware levels are ordered"),
  switchMap: switchMapSchema
    .nullable()
    .optional()
    .describe("switch-map/1: address switches of packs in a bank, from the maker's instructions"),
};

export const NewProductModel = z.strictObject({
  code: shortText(40).meta({ examples: ["CAIRN-48"] }),
  kind: z.enum(MODEL_KINDS),
  ...editable,
  attributes: attributes.default({}),
  kit: kit.default([]),
  serialCheck: editable.serialCheck.default("none"),
});

export const ProductModelEdit = z
  .strictObject(editable)
  .partial()
  .describe("Code and kind stay: units, plans and releases rest on them.");

export const ProductModel = z
  .object({
    id: z.guid(),
    code: z.string(),
    name: z.string(),
    maker: z.string(),
    kind: z.string(),
    attributes: z.record(z.string(), z.union([z.number(), z.string(), z.boolean()])),
    serialMask: z.string(),
    serialCheck: z.string(),
    firmwareScheme: z.string(),
    switchMap: z.record(z.string(), z.unknown()).nullable().describe("a switch-map/1 document"),
    kit: z.array(z.record(z.string(), z.unknown())).describe("its kit lines"),
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "ProductModel" });

export const ProductModelPage = pageOf(ProductModel);
export const ProductModelQuery = z.strictObject({
  ...PAGE_QUERY,
  code: typedText(40).optional().describe("part of the code"),
  kind: z.enum(MODEL_KINDS).optional(),
});
