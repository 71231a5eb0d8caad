import { z } from "zod";
import { plainDate } from "../../web/fields.ts";
import { isHolidayCountry, regionCode } from "../holidays/public-holidays.ts";

const clock = (example: string) =>
  z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/, "must be a time of day such as 08:30")
    .meta({ examples: [example] });

const WorkDay = z
  .strictObject({
    weekday: z.number().int().min(1).max(7).describe("Monday 1 to Sunday 7 (ISO 8601)"),
    from: clock("08:00"),
    to: clock("17:00"),
  })
  .refine(({ from, to }) => from < to, { path: ["to"], error: "must be later than from" });

const Week = z
  .array(WorkDay)
  .max(7)
  .refine(
    (days) => new Set(days.map(({ weekday }) => weekday)).size === days.length,
    "must not name a day of the week twice",
  )
  .describe("by the clocks at the site; days left out are days off")
  .meta({ examples: [[{ weekday: 1, from: "08:00", to: "17:00" }]] });

const HolidayPlace = z
  .strictObject({
    country: z
      .string()
      .max(2)
      .refine(
        isHolidayCountry,
        "must be the ISO 3166-1 alpha-2 code of a country with known holidays",
      )
      .meta({ examples: ["GB"] }),
    region: z
      .string()
      .max(10)
      .nullable()
      .default(null)
      .describe("subdivision, where its holidays differ: ENG of GB, CA of US")
      .meta({ examples: ["ENG"] }),
  })
  .refine(({ country, region }) => region === null || regionCode(country, region) !== undefined, {
    path: ["region"],
    error: "must be a subdivision of the country with holidays of its own",
  });

const validFrom = plainDate()
  .refine((day) => /^(20|21)\d\d-/.test(day), "must lie in the years 2000 to 2199")
  .optional()
  .describe("the day from which they hold, if it is one to come; only one change is planned ahead");

export const WorkingHoursInput = z.strictObject({
  week: Week,
  validFrom,
  holidays: HolidayPlace.nullable().describe(
    "whose public holidays are days off; null: those where the site is",
  ),
});
export type WorkingHoursInput = z.infer<typeof WorkingHoursInput>;

export const PersonWeekInput = z.strictObject({
  week: Week.nullable().describe("null: the firm's hours again"),
  validFrom,
});
export type PersonWeekInput = z.infer<typeof PersonWeekInput>;

const ShownDay = z.object({ weekday: z.number().int(), from: z.string(), to: z.string() });
const ShownWeek = z.array(ShownDay).describe("that of today");
const next = z
  .object({
    validFrom: z.iso.date(),
    week: z.array(ShownDay).nullable().describe("null: the firm's hours"),
  })
  .nullable()
  .describe("what they change to");

export const PersonWeek = z
  .object({
    person: z.object({ id: z.guid(), name: z.string() }),
    week: ShownWeek,
    isOwn: z.boolean().describe("false where the firm's hours hold"),
    next,
    version: z.number().int(),
  })
  .meta({ id: "PersonWeek" });

export const WorkingHours = z
  .object({
    week: ShownWeek,
    isUsual: z.boolean().describe("the firm has not said; Monday to Friday, eight to five"),
    next,
    holidays: z.object({ country: z.string(), region: z.string().nullable() }).nullable(),
    people: z.array(PersonWeek).describe("people who work other hours"),
    version: z.number().int(),
  })
  .meta({ id: "WorkingHours" });
