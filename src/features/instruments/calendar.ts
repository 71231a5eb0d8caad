import { Temporal } from "temporal-polyfill";

/** The plain date at a moment in a time zone, `YYYY-MM-DD`. */
export const dateIn = (timeZone: string, at: Date): string =>
  Temporal.Instant.fromEpochMilliseconds(at.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .toString();

/** A day that the later month does not have becomes its last day: 31 August plus six months. */
export const addMonths = (date: string, months: number): string =>
  Temporal.PlainDate.from(date).add({ months }).toString();
