// Requirement: deadlines may count working days. Saturday and Sunday are off, as are the days in
// a set handed in (holidays differ by place and year and are data). Source: Regulation (EEC,
// Euratom) No 1182/71 Articles 2 and 3(4).

import { dateText, plainDate } from "./plain-date.ts";

/** Days of the week that are off, Monday 1 to Sunday 7 (ISO 8601). */
const WEEKEND: ReadonlySet<number> = new Set([6, 7]);
const COUNT_LIMIT = 10_000;
/** A run of days off longer than this means the holiday data is wrong. */
const DAYS_OFF_LIMIT = 366;

/** Whether a day is neither a weekend day nor in `holidays` (days of the form YYYY-MM-DD). */
export function isBusinessDay(
  date: string,
  holidays: ReadonlySet<string>,
  weekend: ReadonlySet<number> = WEEKEND,
): boolean {
  return !weekend.has(plainDate(date).dayOfWeek) && !holidays.has(date);
}

/** The first business day after a day, never the day itself. */
export function nextBusinessDay(
  date: string,
  holidays: ReadonlySet<string>,
  weekend: ReadonlySet<number> = WEEKEND,
): string {
  return step(date, 1, holidays, weekend);
}

/** The day itself if it is a business day, else the next one: the rule of Article 3(4). */
export function businessDayOnOrAfter(
  date: string,
  holidays: ReadonlySet<string>,
  weekend: ReadonlySet<number> = WEEKEND,
): string {
  return isBusinessDay(date, holidays, weekend) ? date : step(date, 1, holidays, weekend);
}

/**
 * The n-th business day after a day (before it, for a negative n); the day itself does not
 * count, whatever it is. With n = 0 the day itself or the next business day. Throws RangeError
 * for an n that is not whole or beyond ±10,000, and where a whole year is off (bugs).
 */
export function addBusinessDays(
  date: string,
  n: number,
  holidays: ReadonlySet<string>,
  weekend: ReadonlySet<number> = WEEKEND,
): string {
  if (!Number.isInteger(n) || Math.abs(n) > COUNT_LIMIT) {
    throw new RangeError(`${n} is not a whole number of business days up to ${COUNT_LIMIT}.`);
  }
  if (n === 0) return businessDayOnOrAfter(date, holidays, weekend);
  let day = date;
  for (let count = 0; count < Math.abs(n); count += 1) {
    day = step(day, n > 0 ? 1 : -1, holidays, weekend);
  }
  return day;
}

function step(
  date: string,
  direction: 1 | -1,
  holidays: ReadonlySet<string>,
  weekend: ReadonlySet<number>,
): string {
  let day = plainDate(date);
  for (let count = 0; count < DAYS_OFF_LIMIT; count += 1) {
    day = day.add({ days: direction });
    const text = dateText(day);
    if (!weekend.has(day.dayOfWeek) && !holidays.has(text)) return text;
  }
  throw new RangeError(`There is no business day within a year of ${date}.`);
}
