import { cautionsAt } from "../../domain/scheduling/cautions.ts";
import type { Leg } from "../../domain/scheduling/day-travel.ts";
import type { DiaryCrew, Wish } from "../../domain/scheduling/diary-facts.ts";
import { dayAt } from "../../domain/scheduling/work-week.ts";
import { holidaysBetween } from "../working-hours/days-off.ts";
import { weekOf } from "../working-hours/store.ts";
import type { DiaryGround } from "./diary-ground.ts";
import type { DiaryVisit } from "./diary-shape.ts";
import { clocks, positionOf, stretch } from "./places.ts";
import { shownMoments } from "./shown-moments.ts";
import type { DiaryVisitRow } from "./visit-store.ts";

/** @param own visits of the same row, for the drives between them */
export function drawVisit(
  ground: DiaryGround,
  visit: DiaryVisitRow,
  leg: Leg | undefined,
  own: readonly DiaryVisitRow[],
): DiaryVisit {
  const { id, version, job, crew, startsAt, endsAt, note } = visit;
  const { site, ...ofJob } = job;
  const { timeZone } = site;
  const at = stretch(visit);
  return {
    ...{ id, version, crew, note, timeZone, ...clocks(at, timeZone) },
    job: { id: ofJob.id, reference: ofJob.reference, kind: ofJob.kind, title: ofJob.title },
    site: {
      ...{ id: site.id, reference: site.reference, name: site.name ?? site.addressLine },
      ...{ addressLine: site.addressLine, locality: site.locality },
    },
    people: peopleOf(visit),
    instruments: instrumentsOf(visit).map(({ id: own, reference, name }) => ({
      ...{ id: own, reference, name },
    })),
    ...{ startsAt: startsAt.toISOString(), endsAt: endsAt.toISOString() },
    day: dayAt(at.startMs, timeZone),
    minutes: (at.endMs - at.startMs) / 60_000,
    hasBegun: startsAt <= ground.now,
    drive: leg
      ? {
          ...{ minutes: leg.driveMin, fromVisitId: leg.fromVisitId },
          ...{ roomMin: leg.roomMin, isTight: leg.isTight },
        }
      : null,
    cautions: endsAt <= ground.now ? [] : cautions(ground, visit, own),
  };
}

function cautions(
  ground: DiaryGround,
  visit: DiaryVisitRow,
  own: readonly DiaryVisitRow[],
): DiaryVisit["cautions"] {
  const people = peopleOf(visit);
  const crew: DiaryCrew = {
    ...visit.crew,
    people: people.map((one) => ({ ...one, week: weekOf(ground.weeks, one.id), away: [] })),
    visits: own
      .filter(({ id }) => id !== visit.id)
      .map((other) => ({
        ...{ visitId: other.id, jobReference: other.job.reference, position: positionOf(other) },
        ...stretch(other),
      })),
  };
  return cautionsAt(wishOf(ground, visit), crew, stretch(visit)).map(shownMoments);
}

function wishOf(ground: DiaryGround, visit: DiaryVisitRow): Wish {
  const { site, kind } = visit.job;
  const day = dayAt(visit.startsAt.getTime(), site.timeZone);
  return {
    ...{ minutes: 0, notBeforeMs: 0, position: positionOf(visit), timeZone: site.timeZone },
    daysOff: new Set(holidaysBetween(ground.firm, site, day, day).keys()),
    requirements: ground.requirements.get(kind) ?? [],
    held: ground.held,
    instruments: instrumentsOf(visit).map(({ id, reference, retiredOn, calibrations: [last] }) => ({
      ...{ id, reference, taken: [] },
      inDateTo: last?.passed ? dayText(last.dueOn) : null,
      retiredOn: retiredOn && dayText(retiredOn),
    })),
    base: ground.base,
  };
}

const peopleOf = ({ bookings }: DiaryVisitRow) => bookings.flatMap(({ person }) => person ?? []);
const instrumentsOf = ({ bookings }: DiaryVisitRow) =>
  bookings.flatMap(({ instrument }) => instrument ?? []);
const dayText = (date: Date): string => date.toISOString().slice(0, 10);
