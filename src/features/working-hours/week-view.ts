import { type WorkWeek, weekMinutes, weekOn } from "../../domain/scheduling/work-week.ts";
import { LOCALES, type ShownLanguage } from "../../language/languages.ts";
import { number, plainDay, weekdayName } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { WEEKDAYS } from "../../web/week-fields.ts";
import { isHolidayCountry, regionsOf } from "../holidays/public-holidays.ts";
import { COUNTRY_CODES } from "../sites/countries.ts";
import { firmWeek, type KeptWeek, type Weeks, weekOf } from "./store.ts";

/** A cell a weekday, and the hours of all of them. */
export function shownWeek(week: WorkWeek, language: ShownLanguage) {
  return {
    days: WEEKDAYS.map((weekday) => {
      const hours = week.find((day) => day.weekday === weekday);
      return { name: weekdayName(language, weekday), ...hours };
    }),
    total: say(language, "workingHours.hours", { hours: number(language, weekMinutes(week) / 60) }),
  };
}

export function weekRows(
  weeks: Weeks,
  staff: readonly { id: string; name: string }[],
  { today, language }: { today: string; language: ShownLanguage },
) {
  const shown = (week: WorkWeek) => shownWeek(weekOn(week, today), language);
  const changes = (kept: KeptWeek | undefined) =>
    kept?.next && kept.next.from > today ? plainDay(language, kept.next.from) : undefined;
  const isOwn = (kept: KeptWeek | undefined) =>
    Boolean(kept?.next && kept.next.from <= today ? kept.next.days : kept?.days);
  return {
    firm: {
      ...shown(firmWeek(weeks)),
      ...{ isUsual: !isOwn(weeks.firm), changes: changes(weeks.firm) },
    },
    people: staff.map((person) => {
      const kept = weeks.people.get(person.id);
      const own = { isOwn: isOwn(kept), changes: changes(kept) };
      return { ...person, ...own, ...shown(weekOf(weeks, person.id)) };
    }),
  };
}

const countryName = (code: string, language: ShownLanguage): string =>
  new Intl.DisplayNames(LOCALES[language], { type: "region" }).of(code) ?? code;

export const placeName = (
  { country, region }: { country: string; region: string | null },
  language: ShownLanguage,
): string => [countryName(country, language), region].filter(Boolean).join(", ");

/** Countries with known holidays by name, and the regions of the one that is chosen. */
export const placeChoices = (country: string | undefined, language: ShownLanguage) => ({
  countries: [...COUNTRY_CODES]
    .filter(isHolidayCountry)
    .map((value) => ({ value, text: countryName(value, language) }))
    .toSorted((one, other) => one.text.localeCompare(other.text, LOCALES[language])),
  regions: country && isHolidayCountry(country) ? regionsOf(country) : [],
});

/** The change that is planned: from when, and to which hours. */
export const nextTold = (
  { validFrom, week }: { validFrom: string; week: WorkWeek | null },
  language: ShownLanguage,
) => ({
  day: plainDay(language, validFrom),
  ...(week ? shownWeek(week, language) : {}),
});
