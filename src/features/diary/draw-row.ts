import { dayBounds } from "../../domain/dates/zone-time.ts";
import { dayTravel } from "../../domain/scheduling/day-travel.ts";
import { dayAt, dayHours } from "../../domain/scheduling/work-week.ts";
import { weekOf } from "../working-hours/store.ts";
import type { DiaryGround } from "./diary-ground.ts";
import type { DiaryAway, DiaryCell, DiaryRow } from "./diary-shape.ts";
import { drawVisit } from "./draw-visit.ts";
import { clocks, positionOf, stretch } from "./places.ts";
import type { RowKey } from "./row-keys.ts";
import type { DiaryVisitRow } from "./visit-store.ts";

export function drawRow(ground: DiaryGround, key: RowKey): DiaryRow {
  const { id, name, people, isActive } = key;
  const own = ground.visits.filter((visit) => isOf(key, visit));
  return {
    ...{ id, name, people, isActive },
    days: ground.days.map((day) => drawCell(ground, key, own, day)),
  };
}

const isOf = ({ kind, id }: RowKey, { crew, bookings }: DiaryVisitRow): boolean =>
  kind === "crew" ? crew.id === id : bookings.some(({ person }) => person?.id === id);

function drawCell(
  ground: DiaryGround,
  { people }: RowKey,
  own: readonly DiaryVisitRow[],
  day: string,
): DiaryCell {
  const visits = own.filter(
    ({ startsAt, job }) => dayAt(startsAt.getTime(), job.site.timeZone) === day,
  );
  const legs = dayTravel(
    visits.map((visit) => ({ visitId: visit.id, position: positionOf(visit), ...stretch(visit) })),
    ground.base,
  );
  const weeks = people.map((person) => weekOf(ground.weeks, person.id));
  const hours = dayHours(day, ground.timeZone, weeks);
  return {
    day,
    hours: hours ? clocks(hours, ground.timeZone) : null,
    visits: visits.map((visit) => {
      const leg = legs.find(({ visitId }) => visitId === visit.id);
      return drawVisit(ground, visit, leg, own);
    }),
    away: people.flatMap((person) => awayOn(ground, person.id, day)),
    driveMin: legs.reduce((sum, { driveMin }) => sum + driveMin, 0),
  };
}

function awayOn(ground: DiaryGround, personId: string, day: string): DiaryAway[] {
  const { start, end } = dayBounds(day, ground.timeZone);
  const whole = { startMs: Date.parse(start), endMs: Date.parse(end) };
  return ground.away
    .filter((row) => row.personId === personId)
    .filter((row) => row.startsAt.getTime() < whole.endMs && row.endsAt.getTime() > whole.startMs)
    .map((row) => {
      const startMs = Math.max(row.startsAt.getTime(), whole.startMs);
      const endMs = Math.min(row.endsAt.getTime(), whole.endMs);
      const { from, to } = clocks({ startMs, endMs }, ground.timeZone);
      return {
        ...{
          absenceId: row.id,
          person: row.person,
          from,
          to: endMs === whole.endMs ? "24:00" : to,
        },
        ...{ startsAt: row.startsAt.toISOString(), endsAt: row.endsAt.toISOString() },
        isWholeDay: startMs === whole.startMs && endMs === whole.endMs,
        reason: ground.withReasons ? row.reason : null,
      };
    });
}
