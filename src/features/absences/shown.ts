import type { ABSENCE_REASONS } from "./schemas.ts";
import { daysOf } from "./span.ts";
import type { AbsenceRow } from "./store.ts";

/** @param timeZone the firm's */
export const shown = (row: AbsenceRow, timeZone: string) => {
  const { id, person, reason, note, version, ...span } = row;
  return {
    ...{ id, person, note, version, ...daysOf(span, timeZone) },
    reason: reason as (typeof ABSENCE_REASONS)[number],
    startsAt: span.startsAt.toISOString(),
    endsAt: span.endsAt.toISOString(),
  };
};

export type Absence = ReturnType<typeof shown>;
