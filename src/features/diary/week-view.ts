// The diary of a week as its page shows it: a grid of quarters of an hour, and the same as a list.
import { Temporal } from "temporal-polyfill";
import type { ShownLanguage } from "../../language/languages.ts";
import { shortDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { cautionText } from "./caution-text.ts";
import type { Diary, DiaryAway, DiaryCell, DiaryVisit } from "./diary-shape.ts";

const QUARTER_MIN = 15;
const QUARTERS_A_DAY = 96;
/** Where nobody has hours in the week. */
const USUAL = { from: 8 * 4, to: 17 * 4 };

/** Quarters of an hour since midnight; "24:00" is the end of the day. */
const quarter = (clock: string): number =>
  Number(clock.slice(0, 2)) * 4 + Number(clock.slice(3)) / QUARTER_MIN;

export interface WeekWish {
  by: "crew" | "person";
  /** The visit that is looked at. */
  chosen: string | undefined;
  language: ShownLanguage;
}

export const mondayOf = (day: string): string => {
  const date = Temporal.PlainDate.from(day);
  return date.subtract({ days: date.dayOfWeek - 1 }).toString();
};

export const daysOn = (day: string, days: number): string =>
  Temporal.PlainDate.from(day).add({ days }).toString();

export function weekView(diary: Diary, wish: WeekWish) {
  const cells = diary.rows.flatMap(({ days }) => days);
  const shown = frameOf(cells);
  const { language } = wish;
  return {
    firstQuarter: shown.from,
    quarters: shown.to - shown.from,
    hours: Array.from({ length: (shown.to - shown.from) / 4 }, (_, at) => ({
      text: `${String(shown.from / 4 + at).padStart(2, "0")}:00`,
      at: at * 4,
    })),
    days: diary.days.map(({ day, isToday, isPast, holiday }, at) => ({
      ...{ day, isToday, isPast, holiday, name: shortDay(language, day) },
      isFree: diary.rows.every(({ days }) => !days[at]?.hours && !days[at]?.visits.length),
    })),
    rows: diary.rows.map(({ id, name, people, isActive, days }) => ({
      ...{ id, name, isActive },
      people: wish.by === "crew" ? people.map((one) => one.name).join(", ") : undefined,
      days: days.map((cell, at) => ({
        ...{ day: cell.day, name: shortDay(language, cell.day), isOff: cell.hours === null },
        ...{ isToday: diary.days[at]?.isToday, driveMin: cell.driveMin || undefined },
        away: cell.away.map((one) => awayView(one, shown, language)),
        visits: cell.visits.map((visit) => visitView(visit, shown.from, wish)),
      })),
    })),
    isEmpty: cells.every(({ visits }) => visits.length === 0),
    isCut: diary.isCut,
  };
}

/** Whole hours from the first that anybody works, or is booked in, to the last. */
function frameOf(cells: readonly DiaryCell[]): { from: number; to: number } {
  const spans = cells.flatMap(({ hours, visits }) => [...(hours ? [hours] : []), ...visits]);
  if (spans.length === 0) return USUAL;
  const from = Math.min(...spans.map((span) => quarter(span.from)));
  const to = Math.max(...spans.map((span) => endQuarter(span)));
  return { from: Math.floor(from / 4) * 4, to: Math.min(QUARTERS_A_DAY, Math.ceil(to / 4) * 4) };
}

/** A visit over midnight is drawn to the end of the day it begins on. */
const endQuarter = ({ from, to }: { from: string; to: string }): number =>
  to <= from ? QUARTERS_A_DAY : quarter(to);

function visitView(visit: DiaryVisit, firstQuarter: number, { chosen, language }: WeekWish) {
  const { id, version, job, site, crew, from, to, day, drive, hasBegun } = visit;
  const start = Math.floor(quarter(from)) - firstQuarter;
  return {
    ...{ id, version, from, to, day, hasBegun, crewId: crew.id, crew: crew.name, jobId: job.id },
    ...{ reference: job.reference, title: job.title, place: site.locality, site: site.reference },
    at: start,
    length: Math.max(1, Math.ceil(endQuarter(visit)) - firstQuarter - start),
    drive: drive?.minutes || undefined,
    isTight: drive?.isTight,
    cautions: visit.cautions.map((caution) => cautionText(caution, language)),
    isChosen: id === chosen,
  };
}

function awayView(
  { person, from, to, isWholeDay }: DiaryAway,
  frame: { from: number; to: number },
  language: ShownLanguage,
) {
  const start = Math.max(Math.floor(quarter(from)), frame.from);
  const end = Math.min(Math.ceil(quarter(to)), frame.to);
  return {
    text: isWholeDay
      ? say(language, "diary.away", { name: person.name })
      : say(language, "diary.awayFrom", { name: person.name, from, to }),
    at: Math.min(start, frame.to - 1) - frame.from,
    length: Math.max(1, end - start),
  };
}
