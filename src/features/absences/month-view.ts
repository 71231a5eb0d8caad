// A month as rows of people and columns of days: who is away when, beside days off and holidays.
import { dateText, plainDate } from "../../domain/dates/plain-date.ts";
import { holdsOn, type WorkWeek } from "../../domain/scheduling/work-week.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { longDay, weekdayLetter } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Absence } from "./shown.ts";

/** Days of a month written 2026-11, in order. */
export function daysOfMonth(month: string): string[] {
  const first = plainDate(`${month}-01`);
  return Array.from({ length: first.daysInMonth }, (_, at) => dateText(first.add({ days: at })));
}

export function besideMonth(month: string, months: number): string {
  return dateText(plainDate(`${month}-01`).add({ months })).slice(0, 7);
}

interface Ground {
  days: readonly string[];
  /** By day the public holidays' names. */
  holidays: ReadonlyMap<string, string>;
  /** Whether they are days off for everybody, wherever the work is. */
  areOff: boolean;
  language: ShownLanguage;
}

export const headOf = ({ days, holidays, language }: Ground, today: string) =>
  days.map((day) => ({
    number: Number(day.slice(8)),
    letter: weekdayLetter(language, day),
    name: longDay(language, day),
    holiday: holidays.get(day),
    isToday: day === today,
  }));

export interface Stretch {
  days: number;
  isOff: boolean;
  isHoliday: boolean;
  absences: { id: string; reason: string; text: string; short: string }[];
}

/** A person's month: days of one and the same absence are one stretch. */
export function stretchesOf(
  ground: Ground,
  week: WorkWeek,
  absences: readonly Absence[],
): Stretch[] {
  const stretches: (Stretch & { key: string })[] = [];
  for (const day of ground.days) {
    const there = absences.filter(({ from, to }) => from <= day && day <= to);
    const key = there.map(({ id }) => id).join(" ");
    const last = stretches.at(-1);
    if (key !== "" && last?.key === key) last.days += 1;
    else stretches.push({ key, ...dayOf(ground, week, day), absences: there.map(toldIn(ground)) });
  }
  return stretches.map(({ key: _key, ...stretch }) => ({
    ...stretch,
    absences: stretch.absences.map((one) => ({
      ...one,
      short: stretch.days >= WORD_DAYS ? one.text : one.short,
    })),
  }));
}

/** So many columns hold the word for a reason; fewer hold its letter. */
const WORD_DAYS = 4;

function dayOf({ holidays, areOff }: Ground, week: WorkWeek, day: string) {
  const { dayOfWeek } = plainDate(day);
  const isHoliday = holidays.has(day);
  return {
    days: 1,
    isHoliday,
    isOff:
      (areOff && isHoliday) || !week.some((one) => one.weekday === dayOfWeek && holdsOn(one, day)),
  };
}

const toldIn =
  ({ language }: Ground) =>
  ({ id, reason, isWholeDays }: Absence) => {
    const letter = say(language, `absences.letter.${reason}`);
    const text = say(language, `absences.reason.${reason}`);
    return { id, reason, text, short: isWholeDays ? letter : `${letter}½` };
  };
