// What the diary looks like to whoever draws it. Days are plain (YYYY-MM-DD), moments RFC 3339 in
// UTC, times of day as the clocks at the site show them ("08:30").
import type { Caution } from "../../domain/scheduling/cautions.ts";
import type { Shown } from "./shown-moments.ts";

export interface Named {
  id: string;
  name: string;
}

export interface Diary {
  by: "crew" | "person";
  from: string;
  to: string;
  /** The firm's: its hours and absences are shown by it, and "today" is told by it. */
  timeZone: string;
  today: string;
  days: DiaryDay[];
  /** A row a crew or a person, in the order of their names; those without visits as well. */
  rows: DiaryRow[];
  /** More visits than are read at once: the rows miss the last ones. */
  isCut: boolean;
}

export interface DiaryDay {
  day: string;
  /** Monday 1 to Sunday 7. */
  weekday: number;
  isToday: boolean;
  isPast: boolean;
  /** The name of the public holiday, where it is one for the firm. */
  holiday: string | null;
}

export interface DiaryRow {
  id: string;
  name: string;
  /** The crew's people now; of a person's row the person alone. */
  people: Named[];
  /** False for a disbanded crew, or one who left, with visits in these days. */
  isActive: boolean;
  /** One a day of the diary, in its order. */
  days: DiaryCell[];
}

export interface DiaryCell {
  day: string;
  /** Hours of all the row's people together; null on a day off. A holiday is told by the day. */
  hours: { from: string; to: string } | null;
  /** In the order of their start, each on the day it begins on at its site. */
  visits: DiaryVisit[];
  away: DiaryAway[];
  /** Minutes of driving to all the visits of the day. */
  driveMin: number;
}

export interface DiaryAway {
  absenceId: string;
  person: Named;
  startsAt: string;
  endsAt: string;
  /** From and to of this day by the firm's clock; whole days are "00:00" to "24:00". */
  from: string;
  to: string;
  isWholeDay: boolean;
  /** Null for those who are not told why. */
  reason: string | null;
}

export interface DiaryVisit {
  id: string;
  /** For the If-Match of a move: `PATCH /api/v1/visits/:id`. */
  version: number;
  job: { id: string; reference: string; kind: string; title: string };
  site: Named & { reference: string; addressLine: string; locality: string };
  crew: Named;
  people: Named[];
  instruments: { id: string; reference: string; name: string }[];
  startsAt: string;
  endsAt: string;
  /** Of the site. */
  timeZone: string;
  day: string;
  from: string;
  to: string;
  minutes: number;
  note: string | null;
  hasBegun: boolean;
  /** The drive to it; null to the first visit of a day where the firm's base is not known. */
  drive: DiaryDrive | null;
  /** What is worth knowing of it; a visit that is over has none. */
  cautions: Shown<Caution>[];
}

export interface DiaryDrive {
  minutes: number;
  /** Null for the base. */
  fromVisitId: string | null;
  /** Minutes between the visit before and this one; null from the base. */
  roomMin: number | null;
  isTight: boolean;
}
