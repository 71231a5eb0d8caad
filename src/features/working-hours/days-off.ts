import {
  type HolidayPlace,
  isDayOff,
  isHolidayCountry,
  placeOfSite,
  publicHolidays,
  YEAR_FIRST,
  YEAR_LAST,
} from "../holidays/public-holidays.ts";

/**
 * Whole public holidays from a day to another, both included, by date with their names: those the
 * firm keeps, or those at the site where the firm has not said. None beyond the known years.
 */
export function holidaysBetween(
  firm: { holidayCountry: string | null; holidayRegion: string | null },
  site: { country: string; region: string } | undefined,
  from: string,
  to: string,
): ReadonlyMap<string, string> {
  const place = placeOf(firm) ?? (site ? placeOfSite(site) : undefined);
  if (!place || !isHolidayCountry(place.country)) return new Map();
  const [first, last] = [Number(from.slice(0, 4)), Number(to.slice(0, 4))];
  const years = Array.from({ length: last - first + 1 }, (_, at) => first + at);
  const known = years.filter((year) => year >= YEAR_FIRST && year <= YEAR_LAST);
  const days = known.flatMap((year) => publicHolidays(place, year).filter(isDayOff));
  return new Map(
    days.filter(({ date }) => from <= date && date <= to).map(({ date, name }) => [date, name]),
  );
}

function placeOf(firm: {
  holidayCountry: string | null;
  holidayRegion: string | null;
}): HolidayPlace | undefined {
  if (firm.holidayCountry === null) return undefined;
  return { country: firm.holidayCountry, region: firm.holidayRegion ?? undefined };
}
