// Days, times and numbers as a reader of the language writes them.
import { Temporal } from "temporal-polyfill";
import { LOCALES, type ShownLanguage } from "./languages.ts";

/** "Wednesday, 25 November 2026". */
export const longDay = (language: ShownLanguage, day: string): string =>
  Temporal.PlainDate.from(day).toLocaleString(LOCALES[language], {
    weekday: "long",
    day: "numeric",
    month: "long",
    year: "numeric",
  });

/** "Wed 25 Nov". */
export const shortDay = (language: ShownLanguage, day: string): string =>
  Temporal.PlainDate.from(day).toLocaleString(LOCALES[language], {
    weekday: "short",
    day: "numeric",
    month: "short",
  });

/** "25 Nov 2026". */
export const plainDay = (language: ShownLanguage, day: string): string =>
  Temporal.PlainDate.from(day).toLocaleString(LOCALES[language], {
    day: "numeric",
    month: "short",
    year: "numeric",
  });

/** "25 Nov 2026, 08:30", on the clock of the place. */
export const dayAndTime = (language: ShownLanguage, time: Date, timeZone: string): string =>
  new Intl.DateTimeFormat(LOCALES[language], {
    timeZone,
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  }).format(time);

/** "25 Nov 2026": the day it was at the place. */
export const dayAt = (language: ShownLanguage, time: Date, timeZone: string): string =>
  new Intl.DateTimeFormat(LOCALES[language], {
    ...{ timeZone, day: "numeric", month: "short", year: "numeric" },
  }).format(time);

/** "Monday" for 1 to "Sunday" for 7, as ISO 8601 counts. */
export const weekdayName = (language: ShownLanguage, weekday: number): string =>
  Temporal.PlainDate.from({ year: 2024, month: 1, day: weekday }).toLocaleString(
    LOCALES[language],
    { weekday: "long" },
  );

/** "1,234.5". */
export const number = (language: ShownLanguage, value: number): string =>
  new Intl.NumberFormat(LOCALES[language]).format(value);

/** "November 2026"; of a month written 2026-11. */
export const monthName = (language: ShownLanguage, month: string): string =>
  Temporal.PlainDate.from(`${month}-01`).toLocaleString(LOCALES[language], {
    month: "long",
    year: "numeric",
  });

/** "W" for a Wednesday: the narrowest that the language has. */
export const weekdayLetter = (language: ShownLanguage, day: string): string =>
  Temporal.PlainDate.from(day).toLocaleString(LOCALES[language], { weekday: "narrow" });
