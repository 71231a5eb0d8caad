import { z } from "zod";
import { dateTime, plainDate, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const ABSENCE_REASONS = ["leave", "sickness", "training", "other"] as const;

const isPlannable = (text: string): boolean => /^(20|21)\d\d-/.test(text);
const YEARS = "must lie in the years 2000 to 2199";
const moment = () => dateTime().refine(isPlannable, YEARS);
const day = () => plainDate().refine(isPlannable, YEARS);

const hours = {
  from: day().optional().describe("first day, by the firm's calendar"),
  to: day().optional().describe("last day, included"),
  startsAt: moment().optional().describe("instead of whole days"),
  endsAt: moment()
    .optional()
    .meta({ examples: ["2026-11-25T12:00:00+00:00"] }),
};
const reason = z.enum(ABSENCE_REASONS).meta({ examples: ["leave"] });
const note = shortText(200)
  .nullable()
  .meta({ examples: ["Agreed in May"] });

interface Given {
  from?: string | undefined;
  to?: string | undefined;
  startsAt?: string | undefined;
  endsAt?: string | undefined;
}
const isPaired = (one: unknown, other: unknown) => (one === undefined) === (other === undefined);
const ONE_WAY = { path: ["from"], error: "give from and to, or startsAt and endsAt, and not both" };
const isOneWay = ({ from, to, startsAt, endsAt }: Given) =>
  isPaired(from, to) && isPaired(startsAt, endsAt) && !(from && startsAt);

export const NewAbsence = z
  .strictObject({ personId: z.guid(), ...hours, reason, note: note.default(null) })
  .refine((given) => isOneWay(given) && Boolean(given.from ?? given.startsAt), ONE_WAY);
export type NewAbsence = z.infer<typeof NewAbsence>;

export const AbsenceEdit = z
  .strictObject({ ...hours, reason: reason.optional(), note: note.optional() })
  .refine(isOneWay, ONE_WAY);
export type AbsenceEdit = z.infer<typeof AbsenceEdit>;

export const Absence = z
  .object({
    id: z.guid(),
    person: z.object({ id: z.guid(), name: z.string() }),
    startsAt: z.iso.datetime({ offset: true }),
    endsAt: z.iso.datetime({ offset: true }),
    from: z.iso.date().describe("first day, by the firm's calendar"),
    to: z.iso.date().describe("last day"),
    isWholeDays: z.boolean(),
    reason: z.enum(ABSENCE_REASONS),
    note: z.string().nullable(),
    version: z.number().int(),
  })
  .meta({ id: "Absence" });
export const AbsencePage = pageOf(Absence);
export const AbsenceQuery = z.strictObject({
  ...PAGE_QUERY,
  personId: z.guid().optional(),
  from: day().optional().describe("those that have not ended before this day"),
  to: day().optional().describe("those that begin on this day at the latest"),
});
