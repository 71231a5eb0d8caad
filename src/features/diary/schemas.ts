import { z } from "zod";
import { plainDate } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { JOB_KINDS } from "../jobs/schemas.ts";
import { DiaryCaution, DiaryObstacle } from "./reason-schemas.ts";

const isPlannable = (text: string): boolean => /^(20|21)\d\d-/.test(text);
const day = () => plainDate().refine(isPlannable, "must lie in the years 2000 to 2199");
const moment = () => z.iso.datetime({ offset: true });
const named = z.object({ id: z.guid(), name: z.string() });

export const DiaryQuery = z
  .strictObject({
    from: day().describe("first day"),
    to: day().describe("last day, included; at most 42 days"),
    by: z.enum(["crew", "person"]).default("crew").describe("a row a crew or a person"),
  })
  .refine(({ from, to }) => from <= to, { path: ["to"], error: "must not lie before from" });

const DiaryVisit = z.object({
  id: z.guid(),
  version: z.number().int().describe("for the If-Match of a move"),
  job: z.object({ id: z.guid(), reference: z.string(), kind: z.string(), title: z.string() }),
  site: z.object({
    id: z.guid(),
    reference: z.string(),
    name: z.string(),
    addressLine: z.string(),
    locality: z.string(),
  }),
  crew: named,
  people: z.array(named),
  instruments: z.array(z.object({ id: z.guid(), reference: z.string(), name: z.string() })),
  startsAt: moment(),
  endsAt: moment(),
  timeZone: z.string().describe("of the site"),
  day: z.iso.date().describe("on which it begins at the site"),
  from: z.string().describe("time of day at the site"),
  to: z.string(),
  minutes: z.number(),
  note: z.string().nullable(),
  hasBegun: z.boolean(),
  drive: z
    .object({
      minutes: z.number(),
      fromVisitId: z.guid().nullable().describe("null: from the firm's base"),
      roomMin: z.number().nullable().describe("minutes between the visit before and this one"),
      isTight: z.boolean(),
    })
    .nullable()
    .describe("the estimated drive to it; null to a first visit where the base is not known"),
  cautions: z.array(DiaryCaution),
});

const DiaryCell = z.object({
  day: z.iso.date(),
  hours: z
    .object({ from: z.string(), to: z.string() })
    .nullable()
    .describe("of all the row's people together, null on a day off"),
  visits: z.array(DiaryVisit),
  away: z.array(
    z.object({
      absenceId: z.guid(),
      person: named,
      startsAt: moment(),
      endsAt: moment(),
      from: z.string(),
      to: z.string(),
      isWholeDay: z.boolean(),
      reason: z.string().nullable().describe("null for those who are not told why"),
    }),
  ),
  driveMin: z.number(),
});

export const Diary = z
  .object({
    by: z.enum(["crew", "person"]),
    from: z.iso.date(),
    to: z.iso.date(),
    timeZone: z.string().describe("the firm's"),
    today: z.iso.date(),
    days: z.array(
      z.object({
        day: z.iso.date(),
        weekday: z.number().int().describe("Monday 1 to Sunday 7"),
        isToday: z.boolean(),
        isPast: z.boolean(),
        holiday: z.string().nullable(),
      }),
    ),
    rows: z.array(
      z.object({
        id: z.guid(),
        name: z.string(),
        people: z.array(named),
        isActive: z.boolean(),
        days: z.array(DiaryCell),
      }),
    ),
    isCut: z.boolean().describe("there are more visits than are read at once: ask for fewer days"),
  })
  .meta({ id: "Diary" });

const Duration = z.object({
  minutes: z.number().int(),
  from: z
    .enum(["plan", "kind", "usual", "given"])
    .describe("learnt from closed jobs of the same plan, of the same kind, or from none"),
  jobs: z.number().int().describe("how many jobs it was learnt from"),
});

export const FirstFreeQuery = z.strictObject({
  crewId: z.guid().optional().describe("this crew alone"),
  from: day().optional().describe("first day looked at, today when left out"),
  days: z.coerce.number().int().min(1).max(60).default(21).describe("how many days are looked at"),
  minutes: z.coerce
    .number()
    .int()
    .min(15)
    .max(840)
    .optional()
    .describe("how long the visit is; what was learnt when left out"),
  instrumentIds: z
    .string()
    .max(800)
    .transform((text) => text.split(","))
    .pipe(z.array(z.guid()).max(20))
    .optional()
    .describe("instruments to take along, by commas"),
  most: z.coerce.number().int().min(1).max(50).default(10).describe("suggestions wanted"),
});
export type FirstFreeQuery = z.infer<typeof FirstFreeQuery>;

export const FirstFree = z
  .object({
    duration: Duration.extend({
      isCapped: z.boolean().describe("it takes longer than a day: this is a first visit"),
    }),
    timeZone: z.string().describe("of the site"),
    suggestions: z.array(
      z.object({
        crew: named,
        day: z.iso.date(),
        startsAt: moment(),
        endsAt: moment(),
        from: z.string().describe("time of day at the site"),
        to: z.string(),
        latestStartsAt: moment().describe("it may begin at any quarter of an hour until then"),
        driveBeforeMin: z.number(),
        driveAfterMin: z.number(),
        beforeVisitId: z.guid().nullable(),
        afterVisitId: z.guid().nullable(),
        cautions: z.array(DiaryCaution),
      }),
    ),
    refused: z
      .array(z.object({ crew: named, day: z.iso.date(), obstacles: z.array(DiaryObstacle) }))
      .describe("days without a place before the last suggestion, and what is in the way"),
  })
  .meta({ id: "FirstFree" });

export const UnplacedJob = z
  .object({
    id: z.guid(),
    reference: z.string(),
    kind: z.enum(JOB_KINDS),
    title: z.string(),
    site: z.object({
      id: z.guid(),
      reference: z.string(),
      name: z.string(),
      addressLine: z.string(),
      locality: z.string(),
      timeZone: z.string(),
    }),
    openedAt: moment(),
    dueOn: z.iso.date().nullable().describe("of an inspection that comes round"),
    lastVisitAt: moment().nullable().describe("start of its last visit, which is over"),
    duration: Duration,
  })
  .meta({ id: "UnplacedJob" });
export const UnplacedJobPage = pageOf(UnplacedJob);
export const UnplacedQuery = z.strictObject({
  ...PAGE_QUERY,
  kind: z.enum(JOB_KINDS).optional(),
});
