import { z } from "zod";
import { longText, plainDate, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const DAYS_MOST = 3650;
const days = () => z.number().int().min(1).max(DAYS_MOST);
const kwh = () => z.number().min(0).max(1e9);
const celsius = () => z.number().min(-100).max(200);
const moment = z.iso.datetime({ offset: true });

const termsFields = {
  years: z.number().int().min(1).max(50),
  throughputKwh: kwh().positive().optional().describe("energy delivered that ends it sooner"),
  registerWithinDays: days().optional().describe("days after commissioning"),
  evidenceNeeded: z.boolean().describe("whether the unit's job must be closed"),
  firmware: z.strictObject({ level: shortText(128), withinDays: days() }).optional(),
  temperature: z.strictObject({ lowest: celsius(), highest: celsius() }).optional(),
  endMovesToWorkingDay: z
    .boolean()
    .default(false)
    .describe("whether a last day on Saturday or Sunday moves to Monday"),
  source: longText(500).optional().describe("where the maker says so"),
};

export const NewTerms = z
  .strictObject({ ...termsFields, appliesFrom: plainDate().describe("day of commissioning") })
  .refine(({ temperature: range }) => !range || range.lowest < range.highest, {
    path: ["temperature", "highest"],
    error: "must be above the lowest",
  })
  .meta({
    examples: [
      { appliesFrom: "2026-01-01", years: 10, registerWithinDays: 60, evidenceNeeded: true },
    ],
  });
export type NewTerms = z.infer<typeof NewTerms>;

export const Terms = z
  .object({
    ...termsFields,
    firmware: z.object({ level: z.string(), withinDays: z.number().int() }).optional(),
    source: z.string().optional().describe("where the maker says so"),
    endMovesToWorkingDay: z.boolean(),
    id: z.guid(),
    number: z.number().int(),
    appliesFrom: z.string(),
    createdAt: moment,
  })
  .meta({ id: "WarrantyTerms" });
export type Terms = z.infer<typeof Terms>;
export const TermsPage = pageOf(Terms);

export const NewRegistration = z
  .strictObject({
    registeredOn: plainDate(),
    reference: shortText(120).describe("what the maker gave"),
    note: longText(2000).optional(),
  })
  .meta({ examples: [{ registeredOn: "2026-11-25", reference: "FS-REG-20418" }] });
export type NewRegistration = z.infer<typeof NewRegistration>;

export const NewReading = z
  .strictObject({
    readOn: plainDate(),
    throughputKwh: kwh().optional().describe("delivered since commissioning"),
    temperature: z
      .strictObject({ lowest: celsius(), highest: celsius() })
      .refine(({ lowest, highest }) => lowest <= highest, "lowest is above highest")
      .optional()
      .describe("°C, the lowest and highest seen since the reading before"),
  })
  .refine(({ throughputKwh, temperature }) => (throughputKwh ?? temperature) !== undefined, {
    path: ["throughputKwh"],
    error: "send throughputKwh, temperature or both",
  })
  .meta({ examples: [{ readOn: "2026-11-25", throughputKwh: 1840.5 }] });
export type NewReading = z.infer<typeof NewReading>;

export const Reading = z
  .object({
    id: z.guid(),
    readOn: z.string(),
    throughputKwh: z.number().nullable(),
    temperatureLowest: z.number().nullable(),
    temperatureHighest: z.number().nullable(),
    createdAt: moment,
  })
  .meta({ id: "WarrantyReading" });
export const ReadingPage = pageOf(Reading);

export const Registration = z
  .object({ registeredOn: z.string(), reference: z.string(), note: z.string().nullable() })
  .meta({ id: "WarrantyRegistration" });

const REASONS = [
  "not-commissioned",
  "period-over",
  "throughput-used",
  "registration-missed",
  "registered-late",
  "firmware-missed",
  "firmware-late",
  "registration-due",
  "evidence-incomplete",
  "firmware-due",
  "throughput-projected",
  "temperature-outside",
] as const;
const GAPS = [
  "commissioning",
  "registration",
  "evidence",
  "firmware",
  "throughput-reading",
  "temperature-reading",
] as const;

export const UnitWarranty = z
  .object({
    unitId: z.guid(),
    serial: z.string(),
    modelCode: z.string(),
    siteId: z.guid().nullable(),
    siteReference: z.string().nullable(),
    commissionedOn: z.string().nullable(),
    terms: z
      .object({ id: z.guid(), number: z.number().int() })
      .nullable()
      .describe("the version at commissioning; null where the model has none, and then no state"),
    state: z.enum(["pending", "in-term", "at-risk", "lapsed", "expired"]).nullable(),
    reasons: z.array(z.enum(REASONS)).readonly(),
    gaps: z.array(z.enum(GAPS)).readonly().describe("what a claim made today would lack"),
    endsOn: z.string().nullable().describe("last day in warranty"),
    registerBy: z.string().nullable(),
    firmwareBy: z.string().nullable(),
    registration: Registration.nullable(),
    throughput: z
      .object({
        usedKwh: z.number(),
        readOn: z.string(),
        projectedKwh: z.number().describe("on the last day, at the pace so far"),
        limitOn: z.string().optional(),
      })
      .nullable(),
  })
  .meta({ id: "UnitWarranty" });
export type UnitWarranty = z.infer<typeof UnitWarranty>;
export const UnitWarrantyPage = pageOf(UnitWarranty);

/** "none" where the model has no terms. */
export const STANDINGS = ["none", "pending", "in-term", "at-risk", "lapsed", "expired"] as const;
const scopeFields = { modelId: z.guid().optional(), siteId: z.guid().optional() };
export const StandingFields = z.strictObject({
  ...scopeFields,
  state: z.enum(STANDINGS).optional(),
  registration: z
    .literal("open")
    .optional()
    .describe("not registered yet, though the terms ask for it"),
  registerBefore: plainDate()
    .optional()
    .describe("not registered yet, and to be before this day; what is overdue is among them"),
});
export const WarrantyQuery = StandingFields.extend(PAGE_QUERY);
export const WarrantyCountQuery = z.strictObject(scopeFields);
export const WarrantyCounts = z
  .object({
    units: z.record(z.enum(STANDINGS), z.number().int()),
    unregistered: z.number().int().describe("to be registered still, or too late for it"),
  })
  .meta({ id: "WarrantyCounts" });
export type WarrantyCounts = z.infer<typeof WarrantyCounts>;
