// Requirement: a customer is reminded on the last working day before the visit, while somebody at
// the firm can still be reached. Source: common practice, no source; the working days are those of
// the visit's place, the hour is by the firm's clock.

import { addBusinessDays } from "../dates/business-days.ts";
import { localDay, localTimeToInstant } from "../dates/zone-time.ts";

export interface ReminderRule {
  /** Where the visit is. */
  siteZone: string;
  firmZone: string;
  /** Hour of the firm's day, 0 to 23. */
  hour: number;
  /** Whole days off at the visit's place, YYYY-MM-DD. */
  holidays: ReadonlySet<string>;
  /** Days of the week that are off there, Monday 1 to Sunday 7. */
  weekend: ReadonlySet<number>;
}

/**
 * The instant (RFC 3339, UTC) from which a visit's reminder is due. Throws RangeError for an
 * unknown zone or an hour that is none (bugs).
 */
export function reminderInstant(visitStart: string, rule: ReminderRule): string {
  const { siteZone, firmZone, hour, holidays, weekend } = rule;
  const day = addBusinessDays(localDay(visitStart, siteZone), -1, holidays, weekend);
  const local = localTimeToInstant(`${day}T${String(hour).padStart(2, "0")}:00`, firmZone);
  if (!local.ok) throw new RangeError(local.problem);
  return local.instant;
}
