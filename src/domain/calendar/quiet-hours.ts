// Requirement: mails to customers wait while the firm keeps quiet, by the clock on the firm's wall.
// Whether hours are quiet is read off that clock minute by minute, so on the days when clocks
// change the quiet is as much longer or shorter as the night is. Source for local times: RFC 5545
// 3.3.5 and the IANA time zone database; the hours themselves are the firm's choice.

import { Temporal } from "temporal-polyfill";

/** Times of day such as "20:00"; from is quiet, to no longer is. May reach past midnight. */
export interface QuietHours {
  from: string;
  to: string;
}

/**
 * The instant (RFC 3339, UTC) at which the quiet that holds at `instant` ends; undefined when it
 * is not quiet then. Hours that begin and end at the same time are none.
 */
export function quietUntil(
  instant: string,
  { from, to }: QuietHours,
  timeZone: string,
): string | undefined {
  const now = Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone);
  const end = Temporal.PlainTime.from(to);
  const start = Temporal.PlainTime.from(from);
  if (!isQuiet(now.toPlainTime(), start, end)) return undefined;
  const isToday = Temporal.PlainTime.compare(now.toPlainTime(), end) < 0;
  const day = isToday ? now.toPlainDate() : now.toPlainDate().add({ days: 1 });
  const passes = [
    ...passings(day, end, timeZone),
    ...passings(day.add({ days: 1 }), end, timeZone),
  ];
  return passes
    .filter((pass) => Temporal.Instant.compare(pass, now.toInstant()) > 0)
    .sort(Temporal.Instant.compare)[0]
    ?.toString();
}

function isQuiet(
  time: Temporal.PlainTime,
  from: Temporal.PlainTime,
  to: Temporal.PlainTime,
): boolean {
  const [began, ended] = [from, to].map((edge) => Temporal.PlainTime.compare(time, edge) >= 0);
  const reachesPastMidnight = Temporal.PlainTime.compare(from, to) > 0;
  return reachesPastMidnight ? began === true || ended === false : began === true && !ended;
}

/** When the wall clock reaches or leaps over a time on a day: twice where the time comes twice. */
function passings(
  day: Temporal.PlainDate,
  time: Temporal.PlainTime,
  timeZone: string,
): Temporal.Instant[] {
  const local = day.toPlainDateTime(time);
  const [first, second] = (["earlier", "later"] as const).map((disambiguation) =>
    local.toZonedDateTime(timeZone, { disambiguation }),
  ) as [Temporal.ZonedDateTime, Temporal.ZonedDateTime];
  if (first.toPlainDateTime().equals(local)) return [first.toInstant(), second.toInstant()];
  const leap = first.getTimeZoneTransition("next");
  return leap ? [leap.toInstant()] : [];
}
