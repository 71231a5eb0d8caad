import { z } from "zod";
import { dateTime, longText, plainDate } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { DiaryCaution } from "../diary/reason-schemas.ts";

const VISIT_INSTRUMENTS_MOST = 20;

/** A diary reaches neither before the firm nor past anybody's plans; typing errors do. */
const isBookable = (text: string): boolean => /^(20|21)\d\d-/.test(text);
const YEARS = "must lie in the years 2000 to 2199";

const moment = () => dateTime().refine(isBookable, YEARS).describe("RFC 3339 time with its offset");
const day = () => plainDate().refine(isBookable, YEARS);
const clock = (example: string) =>
  z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/, "must be a time of day such as 08:30")
    .meta({ examples: [example] });

const LocalSpan = z
  .strictObject({ day: day(), from: clock("08:30"), to: clock("12:00") })
  .describe("a day and times of day in the site's time zone, instead of startsAt and endsAt");

const times = {
  startsAt: moment().optional(),
  endsAt: moment()
    .optional()
    .meta({ examples: ["2026-11-25T12:00:00+00:00"] }),
  local: LocalSpan.optional(),
};
const crewId = z.guid().describe("the crew and each of its active people are booked");
const instrumentIds = z
  .array(z.guid())
  .max(VISIT_INSTRUMENTS_MOST)
  .refine((ids) => new Set(ids).size === ids.length, "must not name an instrument twice")
  .describe("instruments that the crew takes along");
const note = longText(2000)
  .nullable()
  .optional()
  .describe("for the crew")
  .meta({ examples: ["Ring from the gate"] });

export const NewVisit = z
  .strictObject({ crewId, ...times, instrumentIds: instrumentIds.default([]), note })
  .refine(
    ({ startsAt, endsAt, local }) =>
      local ? !startsAt && !endsAt : startsAt !== undefined && endsAt !== undefined,
    { path: ["startsAt"], error: "give startsAt and endsAt, or local, and not both" },
  );
export type NewVisit = z.infer<typeof NewVisit>;

export const VisitEdit = z
  .strictObject({ crewId, ...times, instrumentIds, note })
  .partial()
  .refine(({ startsAt, endsAt, local }) => !local || (!startsAt && !endsAt), {
    path: ["startsAt"],
    error: "give startsAt and endsAt, or local, and not both",
  });
export type VisitEdit = z.infer<typeof VisitEdit>;

const VISIT_STATES = ["booked", "cancelled"] as const;

export const Visit = z
  .object({
    id: z.guid(),
    job: z.object({
      id: z.guid(),
      reference: z.string(),
      kind: z.string(),
      title: z.string(),
      state: z.string(),
    }),
    site: z.object({
      id: z.guid(),
      reference: z.string(),
      name: z.string().nullable(),
      addressLine: z.string(),
      locality: z.string(),
      postcode: z.string(),
    }),
    crew: z.object({ id: z.guid(), name: z.string() }),
    people: z
      .array(z.object({ id: z.guid(), name: z.string() }))
      .describe("who is booked; nobody once the visit is cancelled"),
    instruments: z.array(
      z.object({
        id: z.guid(),
        reference: z.string(),
        name: z.string(),
        calibrationDueOn: z
          .string()
          .nullable()
          .describe("last day of its last passed calibration, null when it has none"),
      }),
    ),
    startsAt: z.iso.datetime({ offset: true }),
    endsAt: z.iso.datetime({ offset: true }),
    timeZone: z.string().describe("of the site"),
    state: z.enum(VISIT_STATES),
    note: z.string().nullable(),
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "Visit" });

export const VisitDetail = Visit.extend({
  cautions: z
    .array(DiaryCaution)
    .describe("hours, drives and what runs out; none once it is cancelled"),
}).meta({ id: "VisitDetail" });

export const VisitPage = pageOf(Visit);

export const VisitQuery = z.strictObject({
  ...PAGE_QUERY,
  day: day().optional().describe("visits on this day of their site's calendar"),
  from: day().optional().describe("first day of the site's calendar"),
  to: day().optional().describe("last day of the site's calendar"),
  crewId: z.guid().optional(),
  personId: z.guid().optional().describe("visits that this person is booked for"),
  jobId: z.guid().optional(),
  state: z.enum(VISIT_STATES).default("booked"),
});
