// Absences are whole days by the firm's calendar, or hours of one; kept as moments, so that they
// can be held against visits.
import { dayBounds } from "../../domain/dates/zone-time.ts";
import { dayAt } from "../../domain/scheduling/work-week.ts";
import { invalid } from "../../errors.ts";

export interface AbsenceSpan {
  startsAt: Date;
  endsAt: Date;
}

interface Given {
  from?: string | undefined;
  to?: string | undefined;
  startsAt?: string | undefined;
  endsAt?: string | undefined;
}

const LENGTH_MOST_MS = 400 * 86_400_000;

/** The moments that are asked for; undefined where the request names none. */
export function givenSpan(given: Given, timeZone: string): AbsenceSpan | undefined {
  const { from, to, startsAt, endsAt } = given;
  if (from !== undefined && to !== undefined) {
    if (to < from) throw invalid("/body/to", "An absence does not end before its first day.");
    const [first, last] = [dayBounds(from, timeZone), dayBounds(to, timeZone)];
    return checked({ startsAt: new Date(first.start), endsAt: new Date(last.end) }, "/body/to");
  }
  if (startsAt === undefined || endsAt === undefined) return undefined;
  return spanOfMoments({ startsAt, endsAt });
}

export const spanOfMoments = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }) =>
  checked({ startsAt: new Date(startsAt), endsAt: new Date(endsAt) }, "/body/endsAt");

function checked(span: AbsenceSpan, pointer: string): AbsenceSpan {
  const lengthMs = span.endsAt.getTime() - span.startsAt.getTime();
  if (lengthMs <= 0) throw invalid(pointer, "An absence ends after it begins.");
  if (lengthMs <= LENGTH_MOST_MS) return span;
  throw invalid(pointer, "An absence takes at most 400 days. Enter a longer one in parts.");
}

/** Its days by the calendar of the time zone, and whether it takes them up whole. */
export function daysOf({ startsAt, endsAt }: AbsenceSpan, timeZone: string) {
  const from = dayAt(startsAt.getTime(), timeZone);
  const to = dayAt(endsAt.getTime() - 1, timeZone);
  const isWholeDays =
    Date.parse(dayBounds(from, timeZone).start) === startsAt.getTime() &&
    Date.parse(dayBounds(to, timeZone).end) === endsAt.getTime();
  return { from, to, isWholeDays };
}
