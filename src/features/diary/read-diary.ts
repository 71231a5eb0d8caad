// The diary as it is drawn: days × crews, or × people. The shape is told in diary-shape.ts.
import { Temporal } from "temporal-polyfill";
import type { FirmTransaction } from "../../db/scope.ts";
import { dayBounds, localDay } from "../../domain/dates/zone-time.ts";
import { absencesDuring } from "../absences/store.ts";
import { readFirm } from "../firms/store.ts";
import { requirementsByKind } from "../qualifications/requirement-store.ts";
import { heldBy } from "../qualifications/store.ts";
import { holidaysBetween } from "../working-hours/days-off.ts";
import { readWeeks } from "../working-hours/store.ts";
import type { DiaryGround } from "./diary-ground.ts";
import type { Diary, DiaryDay } from "./diary-shape.ts";
import { drawRow } from "./draw-row.ts";
import { rowsByCrew, rowsByPerson } from "./row-keys.ts";
import { activeCrews, activeInstallers, visitsDuring } from "./visit-store.ts";
import { baseOf } from "./wish.ts";

export const DIARY_DAYS_MOST = 42;
export const DIARY_VISITS_MOST = 1500;
/** No time zone is further from another; what lies outside the days is left out again. */
const AROUND_MS = 26 * 3_600_000;

export interface DiaryQuery {
  /** Days, both included, at most DIARY_DAYS_MOST of them. */
  from: string;
  to: string;
  by: "crew" | "person";
  /** Whether the reader is told why people are away. */
  withReasons: boolean;
}

/** The diary of some days, ready to be drawn. */
export async function readDiary(
  tx: FirmTransaction,
  { from, to, by, withReasons }: DiaryQuery,
  now: Date,
): Promise<Diary> {
  const firm = await readFirm(tx);
  const { timeZone } = firm;
  const today = localDay(now.toISOString(), timeZone);
  const span = {
    startsAt: new Date(Date.parse(dayBounds(from, timeZone).start) - AROUND_MS),
    endsAt: new Date(Date.parse(dayBounds(to, timeZone).end) + AROUND_MS),
  };
  const visits = await visitsDuring(tx, span, DIARY_VISITS_MOST + 1);
  const crews = await activeCrews(tx);
  const keys =
    by === "crew" ? rowsByCrew(crews, visits) : rowsByPerson(await activeInstallers(tx), visits);
  const personIds = [...crews, ...keys].flatMap(({ people }) => people.map(({ id }) => id));
  const booked = visits.flatMap(({ bookings }) => bookings.flatMap(({ person }) => person ?? []));
  const everybody = [...new Set([...personIds, ...booked.map(({ id }) => id)])];
  const ground: DiaryGround = {
    ...{ firm, timeZone, now, withReasons, days: daysBetween(from, to) },
    base: baseOf(firm),
    visits: visits.slice(0, DIARY_VISITS_MOST),
    away: await absencesDuring(tx, span, everybody),
    weeks: await readWeeks(tx),
    requirements: await requirementsByKind(tx),
    held: await heldBy(tx, everybody),
  };
  const holidays = holidaysBetween(firm, undefined, from, to);
  return {
    ...{ by, from, to, timeZone, today },
    days: ground.days.map((day) => dayOf(day, today, holidays)),
    rows: keys.map((key) => drawRow(ground, key)),
    isCut: visits.length > DIARY_VISITS_MOST,
  };
}

function daysBetween(from: string, to: string): string[] {
  const first = Temporal.PlainDate.from(from);
  const count = first.until(to, { largestUnit: "days" }).days + 1;
  return Array.from({ length: count }, (_, at) => first.add({ days: at }).toString());
}

const dayOf = (day: string, today: string, holidays: ReadonlyMap<string, string>): DiaryDay => ({
  ...{ day, weekday: Temporal.PlainDate.from(day).dayOfWeek },
  ...{ isToday: day === today, isPast: day < today, holiday: holidays.get(day) ?? null },
});
