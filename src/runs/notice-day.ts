import { Temporal } from "temporal-polyfill";

/** Local hour at which a firm's day has its notice. */
export const NOTICE_HOUR = 7;

/** The firm's calendar day at `now`, and whether its notice is due by then. */
export function noticeDay(now: Date, timeZone: string): { day: string; hourHasCome: boolean } {
  const local = Temporal.Instant.fromEpochMilliseconds(now.getTime()).toZonedDateTimeISO(timeZone);
  // By the clock on the wall, not by hours since midnight: those differ when clocks change.
  return { day: local.toPlainDate().toString(), hourHasCome: local.hour >= NOTICE_HOUR };
}
