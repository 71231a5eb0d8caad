// The form of an absence: days, and clock times where it is not whole days, by the firm's clocks.
import { z } from "zod";
import { isPlainDate } from "../../domain/dates/plain-date.ts";
import { dayBounds, localTime, localTimeToInstant } from "../../domain/dates/zone-time.ts";
import { Problem } from "../../errors.ts";
import { type FieldProblems, refusedFields } from "../../web/form.ts";
import type { Absence } from "./shown.ts";

export type Typed = Readonly<Record<string, string>>;

/** What the interface takes: days alone, or two moments where a clock time is given. */
export function bodyOf(typed: Typed, timeZone: string): Record<string, unknown> {
  const { personId, from = "", to = "", fromTime = "", toTime = "", reason, note = "" } = typed;
  const rest = { ...(personId ? { personId } : {}), reason, note: note.trim() || null };
  if (fromTime === "" && toTime === "") return { ...rest, from, to };
  return {
    ...rest,
    startsAt: momentOf(from, fromTime, "start", timeZone),
    endsAt: momentOf(to, toTime, "end", timeZone),
  };
}

/** Without a clock time, the day's start or end; undefined where there is no such day or time. */
function momentOf(day: string, clock: string, edge: "start" | "end", timeZone: string) {
  if (!isPlainDate(day)) return undefined;
  if (clock === "") return dayBounds(day, timeZone)[edge];
  const found = localTimeToInstant(`${day}T${clock}`, timeZone);
  return found.ok ? found.instant : undefined;
}

/** What a form that is about to change the absence shows. */
export function typedOf(absence: Absence, timeZone: string): Typed {
  const { from, to, reason, note, version, startsAt, endsAt } = absence;
  const clock = (moment: string, edge: string) =>
    Date.parse(moment) === Date.parse(edge) ? "" : localTime(moment, timeZone).slice(11, 16);
  return {
    ...{ from, to, reason, note: note ?? "", version: String(version) },
    fromTime: clock(startsAt, dayBounds(from, timeZone).start),
    toTime: clock(endsAt, dayBounds(to, timeZone).end),
  };
}

/** The interface's fields are moments; the form's are days and clock times. */
const FORM_FIELD: Readonly<Record<string, string>> = { startsAt: "from", endsAt: "to" };

export const asFormProblems = (problems: FieldProblems): FieldProblems =>
  Object.fromEntries(
    Object.entries(problems).map(([field, text]) => [FORM_FIELD[field] ?? field, text]),
  );

const Extras = z.object({
  conflicts: z
    .array(
      z.object({
        visitId: z.string(),
        jobReference: z.string(),
        startsAt: z.coerce.date(),
        endsAt: z.coerce.date(),
      }),
    )
    .default([]),
  absenceId: z.string().optional(),
});

export interface Refused {
  problems: FieldProblems;
  /** Visits that are booked in these hours. */
  booked: z.infer<typeof Extras>["conflicts"];
  /** The absence that is entered for these hours already. */
  absenceId?: string | undefined;
}

export function refusedAbsence(error: unknown): Refused {
  const problems = asFormProblems(refusedFields(error));
  const extras = Extras.safeParse(error instanceof Problem ? error.extras : {});
  if (!extras.success) return { problems, booked: [] };
  return { problems, booked: extras.data.conflicts, absenceId: extras.data.absenceId };
}
