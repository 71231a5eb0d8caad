import type { Position } from "../../domain/rounds/geodesic.ts";
import type { Held, Requirement } from "../../domain/scheduling/qualified.ts";
import type { AbsenceRow } from "../absences/store.ts";
import type { Weeks } from "../working-hours/store.ts";
import type { DiaryVisitRow } from "./visit-store.ts";

/** Everything a row is drawn from, read once for all of them. */
export interface DiaryGround {
  firm: { holidayCountry: string | null; holidayRegion: string | null };
  timeZone: string;
  now: Date;
  withReasons: boolean;
  days: readonly string[];
  base: Position | null;
  visits: readonly DiaryVisitRow[];
  away: readonly AbsenceRow[];
  weeks: Weeks;
  requirements: ReadonlyMap<string, readonly Requirement[]>;
  held: readonly Held[];
}
