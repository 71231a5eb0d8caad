// Requirement: a visit may be booked outside the usual hours, with a tight drive, or with a
// qualification or a calibration that runs out, and whoever books it is told so; what a crew has
// come to lack since is told as well (product rule). What forbids a booking: see obstacles.ts.

import { type DiaryCrew, driveMin, type Wish } from "./diary-facts.ts";
import { neighbours } from "./first-free.ts";
import { instrumentObstacles, type Obstacle } from "./obstacles.ts";
import { type Expiring, expiring, lacking } from "./qualified.ts";
import { dayAt, dayHours, type Stretch } from "./work-week.ts";

/** What is worth knowing of a visit at a time; moments are milliseconds since 1970. */
export type Caution =
  | { what: "holiday"; day: string }
  | { what: "day-off"; day: string }
  | ({ what: "outside-hours"; day: string } & Stretch)
  | ({ what: "qualification-ends" } & Expiring)
  | {
      what: "tight-drive";
      visitId: string;
      jobReference: string;
      driveMin: number;
      roomMin: number;
    }
  | Extract<Obstacle, { what: "out-of-calibration" | "retired" | "not-qualified" }>;

const MINUTE_MS = 60_000;

/**
 * Cautions about a stretch of a crew's time. The crew's visits are the others, without the one that
 * is looked at; `wish.minutes` and `wish.notBeforeMs` are not used.
 */
export function cautionsAt(wish: Wish, crew: DiaryCrew, stretch: Stretch): Caution[] {
  const day = dayAt(stretch.startMs, wish.timeZone);
  const runningOut = expiring(crew.people, wish.requirements, wish.held, day);
  return [
    ...hourCautions(wish, crew, stretch, day),
    ...lacking(crew.people, wish.requirements, wish.held, day).map(
      (lack): Caution => ({ what: "not-qualified", day, ...lack }),
    ),
    ...runningOut.map((one): Caution => ({ what: "qualification-ends", ...one })),
    ...(instrumentObstacles(wish, day) as Caution[]),
    ...driveCautions(wish, crew, stretch),
  ];
}

function hourCautions(wish: Wish, crew: DiaryCrew, stretch: Stretch, day: string): Caution[] {
  if (wish.daysOff.has(day)) return [{ what: "holiday", day }];
  const weeks = crew.people.map(({ week }) => week);
  const hours = dayHours(day, wish.timeZone, weeks);
  if (!hours) return [{ what: "day-off", day }];
  const isWithin = hours.startMs <= stretch.startMs && stretch.endMs <= hours.endMs;
  return isWithin ? [] : [{ what: "outside-hours", day, ...hours }];
}

function driveCautions(wish: Wish, crew: DiaryCrew, stretch: Stretch): Caution[] {
  const { before, after } = neighbours(stretch, crew.visits);
  const rooms = [
    { visit: before, roomMs: before ? stretch.startMs - before.endMs : 0 },
    { visit: after, roomMs: after ? after.startMs - stretch.endMs : 0 },
  ];
  return rooms.flatMap(({ visit, roomMs }): Caution[] => {
    if (!visit) return [];
    const minutes = driveMin(visit.position, wish.position);
    if (roomMs >= minutes * MINUTE_MS) return [];
    const { visitId, jobReference } = visit;
    const roomMin = Math.floor(roomMs / MINUTE_MS);
    return [{ what: "tight-drive", visitId, jobReference, driveMin: minutes, roomMin }];
  });
}
