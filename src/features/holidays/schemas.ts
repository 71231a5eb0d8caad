import { z } from "zod";
import { plainDate } from "../../web/fields.ts";
import { isHolidayCountry, YEAR_FIRST, YEAR_LAST } from "./public-holidays.ts";

const country = z
  .string()
  .max(2)
  .refine(isHolidayCountry, "must be the ISO 3166-1 alpha-2 code of a country with known holidays")
  .meta({ examples: ["GB"] });
const region = z
  .string()
  .max(10)
  .optional()
  .describe("subdivision: ENG of GB, 67 of FR, CA of US; only what all have in common without it")
  .meta({ examples: ["ENG"] });

export const HolidayQuery = z.strictObject({
  country,
  region,
  year: z.coerce
    .number()
    .int()
    .min(YEAR_FIRST)
    .max(YEAR_LAST)
    .meta({ examples: [2026] }),
});

const Holiday = z
  .object({
    date: z.iso.date(),
    name: z.string(),
    kind: z
      .enum(["public", "bank"])
      .describe("bank: banks and public offices close; counted as a business day"),
    isHalfDay: z.boolean().describe("begins at noon or later; counted as a business day"),
    isSubstitute: z.boolean().describe("stands in for one that falls on a day off"),
  })
  .meta({ id: "Holiday" });

export const HolidayList = z.object({
  items: z.array(Holiday).describe("the public and bank holidays of the year, in order"),
  next: z.null(),
  regions: z
    .array(z.object({ code: z.string(), name: z.string() }))
    .describe("subdivisions of the country with days of their own"),
});

export const BUSINESS_DAYS_MOST = 1000;

export const BusinessDayInput = z.strictObject({
  from: plainDate().describe("the day counted from; it does not count itself"),
  days: z
    .number()
    .int()
    .min(-BUSINESS_DAYS_MOST)
    .max(BUSINESS_DAYS_MOST)
    .describe("business days after it, before it where negative; 0: that day or the next one")
    .meta({ examples: [10] }),
  country,
  region,
});

export const BusinessDay = z
  .object({
    date: z.iso.date(),
    weekend: z.array(z.number().int()).describe("days of the week off, Monday 1 to Sunday 7"),
    skipped: z.array(Holiday).describe("holidays on the way that fell on a day of work"),
    source: z.string(),
  })
  .meta({ id: "BusinessDay" });
