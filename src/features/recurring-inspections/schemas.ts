import { z } from "zod";
import { plainDate, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const day = () =>
  plainDate().refine((text) => /^(20|21)\d\d-/.test(text), "must lie in the years 2000 to 2199");
const title = shortText(160)
  .describe("of the jobs that are opened")
  .meta({ examples: ["Yearly look-over"] });
const everyMonths = z
  .number()
  .int()
  .min(1)
  .max(240)
  .describe("12 for every year; in a shorter month the turn falls on its last day")
  .meta({ examples: [12] });
const horizonDays = z
  .number()
  .int()
  .min(0)
  .max(366)
  .describe("so many days before a turn is due its job is opened")
  .meta({ examples: [30] });

export const NewRecurringInspection = z.strictObject({
  siteId: z.guid(),
  planId: z.guid().describe("jobs take the version that is published when they are opened"),
  title,
  everyMonths,
  firstDueOn: day().describe("the day of the first turn"),
  horizonDays: horizonDays.default(30),
});
export type NewRecurringInspection = z.infer<typeof NewRecurringInspection>;

export const RecurringInspectionEdit = z
  .strictObject({
    planId: z.guid(),
    title,
    everyMonths,
    nextDueOn: day().describe(
      "the next turn falls on this day, the later ones are counted from it",
    ),
    horizonDays,
    ended: z.boolean().describe("no more jobs are opened"),
  })
  .partial();
export type RecurringInspectionEdit = z.infer<typeof RecurringInspectionEdit>;

export const RecurringInspection = z
  .object({
    id: z.guid(),
    site: z.object({ id: z.guid(), reference: z.string(), name: z.string() }),
    plan: z.object({ id: z.guid(), code: z.string(), title: z.string() }),
    title: z.string(),
    everyMonths: z.number().int(),
    nextDueOn: z.iso.date(),
    nextOpensOn: z.iso.date().describe("when the job of the next turn is opened"),
    horizonDays: z.number().int(),
    ended: z.boolean(),
    heldUpBy: z
      .string()
      .nullable()
      .describe("why the last run could not open the job that is due, null where nothing is wrong"),
    lastJob: z
      .object({ id: z.guid(), reference: z.string(), state: z.string(), dueOn: z.iso.date() })
      .nullable()
      .describe("while it is open, no other is opened"),
    version: z.number().int(),
  })
  .meta({ id: "RecurringInspection" });
export const RecurringInspectionPage = pageOf(RecurringInspection);
export const RecurringInspectionQuery = z.strictObject({
  ...PAGE_QUERY,
  siteId: z.guid().optional(),
  ended: z.stringbool().default(false).describe("true lists those that have ended instead"),
  dueBefore: day().optional().describe("those whose next turn lies before this day"),
});
