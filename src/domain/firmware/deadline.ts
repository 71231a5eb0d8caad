// Requirement: a release's severity sets how long a fleet may stay below it (product rule). The day
// counts are common practice, no source; a firm may bring its own.

import { Temporal } from "temporal-polyfill";

export const FIRMWARE_SEVERITIES = ["safety", "important", "routine"] as const;
export type FirmwareSeverity = (typeof FIRMWARE_SEVERITIES)[number];

/** Days from the start date to the last day on time; each a whole number from 0 to DAYS_MAX. */
export type DaysBySeverity = Readonly<Record<FirmwareSeverity, number>>;

/** Starting values; common practice, no source. The maker's own notice comes first. */
export const DAYS_BY_SEVERITY: DaysBySeverity = { safety: 7, important: 30, routine: 90 };

export const DAYS_MAX = 3650;

/**
 * The last day on which an update is in time: `from` plus the severity's days.
 * `from` is the plain date (YYYY-MM-DD, the firm's time zone) on which the release became the
 * target, or its release date where the firm counts from there. Refuses a text that is no date and
 * a day count that is no whole number from 0 to DAYS_MAX.
 */
export function firmwareDeadline(input: {
  severity: FirmwareSeverity;
  from: string;
  days?: DaysBySeverity;
}): { ok: true; deadline: string } | { ok: false; problem: string } {
  const days = (input.days ?? DAYS_BY_SEVERITY)[input.severity];
  if (!Number.isInteger(days) || days < 0 || days > DAYS_MAX) {
    const range = `a whole number from 0 to ${DAYS_MAX}`;
    return { ok: false, problem: `The days for a ${input.severity} release are ${range}.` };
  }
  const from = plainDate(input.from);
  if (!from) {
    return { ok: false, problem: `"${input.from}" is no date; write it like 2026-03-14.` };
  }
  const deadline = from.add({ days }).toString();
  // Years past 9999 are written with a sign and six digits, which no date here may be.
  if (!plainDate(deadline)) {
    return { ok: false, problem: `${days} days from ${input.from} is too late a date.` };
  }
  return { ok: true, deadline };
}

/** A plain YYYY-MM-DD date, or undefined for any other text or a day the calendar lacks. */
export function plainDate(text: string): Temporal.PlainDate | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return undefined;
  try {
    return Temporal.PlainDate.from(text);
  } catch {
    return undefined;
  }
}
