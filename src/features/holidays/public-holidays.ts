// Public holidays by country and, where they differ, by its subdivisions: the data of the package
// date-holidays. The domain counts business days and takes the days off as a set.
import Holidays, { type HolidaysTypes } from "date-holidays";

/** The package's tables of movable feasts cover these years for every calendar it knows. */
export const YEAR_FIRST = 2000;
export const YEAR_LAST = 2070;

export interface HolidayPlace {
  /** ISO 3166-1 alpha-2. */
  country: string;
  /** Subdivision, the part of its ISO 3166-2 code after the hyphen: ENG, 67, CA. */
  region?: string | undefined;
}

export interface Holiday {
  date: string;
  name: string;
  /** `bank`: banks and public offices close, most businesses do not. */
  kind: "public" | "bank";
  /** Begins at noon or later: most businesses are open before. */
  isHalfDay: boolean;
  /** Stands in for one that falls on a day off. */
  isSubstitute: boolean;
}

const DAY_MS = 86_400_000;
const all = new Holidays();
const COUNTRIES = new Set(Object.keys(all.getCountries()));
const kept = new Map<string, readonly Holiday[]>();
/** A list is short; the bound keeps odd requests from filling the memory. */
const KEPT_MOST = 500;

export const isHolidayCountry = (country: string): boolean => COUNTRIES.has(country);

/** Subdivisions with holidays of their own, by code; empty where the country has none. */
export function regionsOf(country: string): { code: string; name: string }[] {
  const states: Record<string, string> = all.getStates(country) ?? {};
  return Object.entries(states)
    .map(([code, name]) => ({ code, name }))
    .sort((a, b) => (a.code < b.code ? -1 : 1));
}

/** Whether businesses are closed for the whole of the day. */
export const isDayOff = ({ kind, isHalfDay }: Holiday): boolean => kind === "public" && !isHalfDay;

/** Holidays of a year in order of their dates, those of the region included. */
export function publicHolidays(place: HolidayPlace, year: number): readonly Holiday[] {
  const key = `${place.country} ${place.region ?? ""} ${year}`;
  const known = kept.get(key);
  if (known) return known;
  const found = look(place, year);
  if (kept.size >= KEPT_MOST) kept.clear();
  kept.set(key, found);
  return found;
}

/** Whole days off between two days, both included, weekends aside: a set for the domain. */
export function holidayDates(place: HolidayPlace, from: string, to: string): ReadonlySet<string> {
  const [first, last] = [Number(from.slice(0, 4)), Number(to.slice(0, 4))];
  const years = Array.from({ length: last - first + 1 }, (_, at) => first + at);
  const days = years.flatMap((year) => publicHolidays(place, year));
  return new Set(days.filter(isDayOff).map(({ date }) => date));
}

/**
 * The place of a site. Its region names whose rules apply, which may be a subdivision of the
 * country or not; where it is none, only the days that all of the country has are known.
 */
export function placeOfSite(site: { country: string; region: string }): HolidayPlace {
  return { country: site.country, region: regionCode(site.country, site.region) };
}

/** The code as the package writes it; undefined where the country has no such subdivision. */
export function regionCode(country: string, region: string): string | undefined {
  const wanted = region.toUpperCase();
  return regionsOf(country).find(({ code }) => code.toUpperCase() === wanted)?.code;
}

/** Days of the week that are off by Unicode CLDR, Monday 1 to Sunday 7. */
export function weekendOf(country: string): ReadonlySet<number> {
  const locale = new Intl.Locale(`und-${country}`) as Intl.Locale & {
    getWeekInfo(): { weekend: number[] };
  };
  return new Set(locale.getWeekInfo().weekend);
}

function look({ country, region }: HolidayPlace, year: number): readonly Holiday[] {
  const calendar = region ? new Holidays(country, region) : new Holidays(country);
  // A feast of several days may have begun in the year before, and a substitute day for 1 January
  // may lie at this year's end.
  const days = [year - 1, year, year + 1]
    .flatMap((one) => calendar.getHolidays(one, "en"))
    .flatMap(daysOf)
    .filter(({ date }) => date.startsWith(`${year}-`));
  // One entry a day: a day off before one that is not, else the first of several names.
  const ranked = [...days.filter(isDayOff), ...days];
  const byDate = new Map(ranked.toReversed().map((day) => [day.date, day]));
  return [...byDate.values()].sort((a, b) => (a.date < b.date ? -1 : 1));
}

function daysOf(holiday: HolidaysTypes.Holiday): Holiday[] {
  const { type: kind } = holiday;
  if (kind !== "public" && kind !== "bank") return [];
  const [day = "", time = ""] = holiday.date.split(" ");
  const isHalfDay = time >= "12:00:00";
  // A day on which the clocks change has 23 or 25 hours.
  const count = Math.max(1, Math.round((holiday.end.getTime() - holiday.start.getTime()) / DAY_MS));
  return Array.from({ length: count }, (_, at) => ({
    date: new Date(Date.parse(day) + at * DAY_MS).toISOString().slice(0, 10),
    name: holiday.name,
    kind,
    isHalfDay,
    isSubstitute: holiday.substitute === true,
  }));
}
