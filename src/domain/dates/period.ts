// Requirement: warranty terms, registration periods and calibration intervals end on the same
// date in the last month or year or, where that month is too short, on its last day. Source:
// Regulation (EEC, Euratom) No 1182/71 Article 3(2)(c); the day the period runs from does not
// count as part of it (Article 3(1)). Same rule as Temporal's overflow "constrain".

import { dateText, plainDate } from "./plain-date.ts";

/** Whole years, months and days; each may be left out. */
export interface Period {
  readonly years?: number;
  readonly months?: number;
  readonly days?: number;
}

/** Bound on any part: beyond it the result leaves the years 1 to 9999 anyway. */
const PART_LIMIT = 1_000_000;

/**
 * The day a period after a day: years and months first, kept within the month
 * (2024-01-31 + 1 month = 2024-02-29), then days. Negative parts go back. Always add to the
 * first day: adding month by month would lose the 31st for good. Throws RangeError for parts
 * that are not whole or results outside the years 1 to 9999 (bugs).
 */
export function addPeriod(date: string, period: Period): string {
  const { years = 0, months = 0, days = 0 } = period;
  for (const part of [years, months, days]) {
    if (!Number.isInteger(part) || Math.abs(part) > PART_LIMIT) {
      throw new RangeError(`A period has whole years, months and days, not ${part}.`);
    }
  }
  const shifted = plainDate(date).add({ years, months }, { overflow: "constrain" });
  return dateText(shifted.add({ days }));
}

/**
 * The last day of a period that runs from `start`: the period ends when that day ends, so on
 * that day itself it still runs. Article 3(4) (end on a day off moves on) is not applied here:
 * see businessDayOnOrAfter. Throws RangeError for an empty or negative period (a bug).
 */
export function periodEnd(start: string, period: Period): string {
  const end = addPeriod(start, period);
  if (end <= start) throw new RangeError("A period must be longer than nothing.");
  return end;
}
