import { Temporal } from "temporal-polyfill";
import { invalid } from "../../errors.ts";

export interface Span {
  startsAt: Date;
  endsAt: Date;
}

export interface SpanInput {
  startsAt?: string;
  endsAt?: string;
  local?: { day: string; from: string; to: string };
}

const LENGTH_LEAST_MS = 15 * 60_000;
const LENGTH_MOST_MS = 14 * 3_600_000;

/** The hours that the request asks for; an edit keeps of `before` what it does not name. */
export function spanOf(input: SpanInput, timeZone: string, before?: Span): Span {
  const span = input.local ? localSpan(input.local, timeZone) : givenSpan(input, before);
  const lengthMs = span.endsAt.getTime() - span.startsAt.getTime();
  const pointer = input.local ? "/body/local/to" : "/body/endsAt";
  if (lengthMs <= 0) throw invalid(pointer, "A visit ends after it begins.");
  if (lengthMs < LENGTH_LEAST_MS || lengthMs > LENGTH_MOST_MS) {
    throw invalid(
      pointer,
      "A visit takes at least 15 minutes and at most 14 hours. Book longer work as several visits.",
    );
  }
  return span;
}

function givenSpan({ startsAt, endsAt }: SpanInput, before: Span | undefined): Span {
  const start = startsAt ? new Date(startsAt) : before?.startsAt;
  const end = endsAt ? new Date(endsAt) : before?.endsAt;
  if (!start || !end) throw new Error("a new visit passed its schema without its times");
  return { startsAt: start, endsAt: end };
}

function localSpan(local: NonNullable<SpanInput["local"]>, timeZone: string): Span {
  return {
    startsAt: localMoment(local.day, local.from, timeZone, "/body/local/from"),
    endsAt: localMoment(local.day, local.to, timeZone, "/body/local/to"),
  };
}

function localMoment(day: string, clock: string, timeZone: string, pointer: string): Date {
  const local = Temporal.PlainDateTime.from(`${day}T${clock}`);
  // On the days when the clocks change an hour is missing and an hour comes twice: nobody guesses.
  const [earlier, later] = (["earlier", "later"] as const).map(
    (disambiguation) => local.toZonedDateTime(timeZone, { disambiguation }).epochMilliseconds,
  );
  if (earlier === undefined || earlier !== later) {
    throw invalid(
      pointer,
      `On ${day} the clocks change, and ${clock} is missing or comes twice in ${timeZone}. ` +
        "Send startsAt and endsAt with their offset.",
    );
  }
  return new Date(earlier);
}

/** "2026-11-25 08:30 to 12:00", as the clocks at the place show it. */
export function spanText({ startsAt, endsAt }: Span, timeZone: string): string {
  const [start, end] = [startsAt, endsAt].map((moment) =>
    Temporal.Instant.fromEpochMilliseconds(moment.getTime()).toZonedDateTimeISO(timeZone),
  ) as [Temporal.ZonedDateTime, Temporal.ZonedDateTime];
  const clock = (moment: Temporal.ZonedDateTime) => moment.toPlainTime().toString().slice(0, 5);
  const isOneDay = start.toPlainDate().equals(end.toPlainDate());
  const until = isOneDay ? clock(end) : `${end.toPlainDate()} ${clock(end)}`;
  return `${start.toPlainDate()} ${clock(start)} to ${until}`;
}
