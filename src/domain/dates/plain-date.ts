// Requirement: days are plain ISO dates ("2026-03-29") without a time or zone, so that a day
// never shifts between the office, the tablet and the record. Source: RFC 3339 full-date, with
// the years 0001 to 9999. Day counts are on the Gregorian calendar.

import { Temporal } from "temporal-polyfill";

const FULL_DATE = /^(?!0000)\d{4}-\d{2}-\d{2}$/;

/** Whether a text is a real day in the form YYYY-MM-DD. */
export function isPlainDate(text: string): boolean {
  return FULL_DATE.test(text) && dateOrUndefined(text) !== undefined;
}

/** Reads a day a person typed or a file holds. */
export function parsePlainDate(
  text: string,
): { ok: true; date: string } | { ok: false; problem: string } {
  const date = text.trim();
  if (isPlainDate(date)) return { ok: true, date };
  const shown = date.slice(0, 20);
  return { ok: false, problem: `"${shown}" is not a day: write year-month-day, as 2026-03-29.` };
}

/** Whole days from one day to another; negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return plainDate(from).until(plainDate(to), { largestUnit: "day" }).days;
}

/** The calendar day of a checked text. Throws RangeError for anything else (a bug). */
export function plainDate(text: string): Temporal.PlainDate {
  const date = FULL_DATE.test(text) ? dateOrUndefined(text) : undefined;
  if (!date) throw new RangeError(`"${text.slice(0, 40)}" is not a day of the form YYYY-MM-DD.`);
  return date;
}

/** The text of a day. Throws RangeError outside the years 0001 to 9999. */
export function dateText(date: Temporal.PlainDate): string {
  const text = date.toString();
  if (!FULL_DATE.test(text))
    throw new RangeError(`The day ${text} is outside the years 1 to 9999.`);
  return text;
}

function dateOrUndefined(text: string): Temporal.PlainDate | undefined {
  try {
    return Temporal.PlainDate.from(text, { overflow: "reject" });
  } catch {
    return undefined;
  }
}
