import type { z } from "zod";
import { addBusinessDays } from "../../domain/dates/business-days.ts";
import { plainDate } from "../../domain/dates/plain-date.ts";
import { invalid } from "../../errors.ts";
import {
  type HolidayPlace,
  holidayDates,
  isDayOff,
  publicHolidays,
  weekendOf,
  YEAR_FIRST,
  YEAR_LAST,
} from "./public-holidays.ts";
import type { BusinessDay } from "./schemas.ts";

const SOURCE =
  "Counted by Regulation (EEC, Euratom) No 1182/71, Articles 2 and 3; holidays: date-holidays " +
  "(CC BY 3.0); weekends: Unicode CLDR.";
/** Fewer business days than any year has, so that the days looked up always reach far enough. */
const BUSINESS_DAYS_A_YEAR = 200;

/** The n-th business day after (or before) a day, with the holidays that were left out. */
export function countBusinessDays(
  from: string,
  days: number,
  place: HolidayPlace,
): z.infer<typeof BusinessDay> {
  const reachYears = Math.sign(days) * Math.ceil(Math.abs(days) / BUSINESS_DAYS_A_YEAR);
  const year = Number(from.slice(0, 4));
  const years = [year - 1, year + 1, year + reachYears - 1, year + reachYears + 1];
  const [first, last] = [Math.min(...years), Math.max(...years)];
  if (first < YEAR_FIRST || last > YEAR_LAST) {
    const detail = `must leave the count between the years ${YEAR_FIRST} and ${YEAR_LAST}`;
    throw invalid("/body/from", detail);
  }
  const weekend = weekendOf(place.country);
  const holidays = holidayDates(place, `${first}-01-01`, `${last}-12-31`);
  const date = addBusinessDays(from, days, holidays, weekend);
  const [start, end] = from < date ? [from, date] : [date, from];
  const skipped = yearsFrom(start, end)
    .flatMap((one) => publicHolidays(place, one))
    .filter((day) => isDayOff(day) && start <= day.date && day.date <= end)
    .filter((day) => !weekend.has(plainDate(day.date).dayOfWeek));
  return { date, weekend: [...weekend].sort(), skipped: [...skipped], source: SOURCE };
}

function yearsFrom(start: string, end: string): number[] {
  const [first, last] = [Number(start.slice(0, 4)), Number(end.slice(0, 4))];
  return Array.from({ length: last - first + 1 }, (_, at) => first + at);
}
