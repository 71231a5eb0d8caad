import { Problem } from "../../errors.ts";
import type { AbsenceRow } from "../absences/store.ts";
import type { Conflict } from "./bookings-store.ts";
import { spanText } from "./span.ts";

/** As a refusal carries it: who or what, by which visit, from when to when. */
export const shownConflict = ({ startsAt, endsAt, ...conflict }: Conflict) => ({
  ...conflict,
  startsAt: startsAt.toISOString(),
  endsAt: endsAt.toISOString(),
});

const shownAbsence = ({ id, person, startsAt, endsAt }: AbsenceRow) => ({
  ...{ what: "absence" as const, id: person.id, name: person.name, absenceId: id },
  startsAt: startsAt.toISOString(),
  endsAt: endsAt.toISOString(),
});

/** What is in the way of a booking; undefined where nothing is. */
export function inTheWay(
  conflicts: readonly Conflict[],
  away: readonly AbsenceRow[],
  timeZone: string,
): Problem | undefined {
  const told = [...conflicts.map(shownConflict), ...away.map(shownAbsence)];
  const more = told.length > 1 ? ` and ${told.length - 1} more` : "";
  const when = (span: { startsAt: Date; endsAt: Date }) =>
    `${spanText(span, timeZone)} (${timeZone})${more}`;
  const [booked, absent] = [conflicts[0], away[0]];
  if (booked) {
    return new Problem(
      "double-booked",
      `${booked.name} is on ${booked.jobReference}, ${when(booked)}. ` +
        "Choose other hours, or another crew or instrument.",
      { conflicts: told },
    );
  }
  if (!absent) return undefined;
  return new Problem(
    "person-absent",
    `${absent.person.name} is away, ${when(absent)}. Choose other hours or another crew.`,
    { conflicts: told },
  );
}
