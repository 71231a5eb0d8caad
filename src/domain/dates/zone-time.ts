// Requirement: visits are agreed in the site's own time and kept as instants. A local day may
// have 23, 24 or 25 hours, a local time may not exist or come twice; that is said, not hidden.
// Sources: IANA time zone database for the rules; RFC 3339 for instants; RFC 5545 3.3.5 for the
// choice (a time in a gap is read with the offset before the gap, a repeated one as the first).

import { Temporal } from "temporal-polyfill";
import { dateText, plainDate } from "./plain-date.ts";

const LOCAL_TIME = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2})?$/;
const NAME_LIMIT = 64;
/** Asking the engine costs some 30 µs a time, and lists ask for the same few zones. */
const ZONES_SEEN = new Set<string>();
/** Above the number of names in the database, so that odd spellings cannot fill the memory. */
const ZONES_SEEN_LIMIT = 1000;

/** An instant in UTC ("2026-03-29T00:30:00Z"); a note where the local time was no ordinary one. */
export type LocalInstant =
  | { ok: true; instant: string; note?: "gap" | "overlap" }
  | { ok: false; problem: string };

/** Whether a text is a time zone name this machine knows ("Europe/Berlin"); offsets are not. */
export function isTimeZone(text: string): boolean {
  if (ZONES_SEEN.has(text)) return true;
  if (!/^[A-Za-z]/.test(text) || text.length > NAME_LIMIT) return false;
  try {
    new Intl.DateTimeFormat("en", { timeZone: text });
    if (ZONES_SEEN.size < ZONES_SEEN_LIMIT) ZONES_SEEN.add(text);
    return true;
  } catch {
    return false;
  }
}

/** The day it is in a zone at an instant (RFC 3339, with Z or offset); others are a RangeError. */
export function localDay(instant: string, timeZone: string): string {
  return dateText(zoned(instant, timeZone).toPlainDate());
}

/** The local time in a zone at an instant, to the second: "2026-03-29T03:30:00". */
export function localTime(instant: string, timeZone: string): string {
  return zoned(instant, timeZone).toPlainDateTime().toString({ smallestUnit: "second" });
}

/**
 * The instants at which a local day starts (included) and ends (excluded). Between them lie 24
 * hours, or what the clocks make of it; a day the zone skipped starts and ends at once.
 */
export function dayBounds(day: string, timeZone: string): { start: string; end: string } {
  requireZone(timeZone);
  const date = plainDate(day);
  const start = date.toZonedDateTime({ timeZone });
  const end = date.add({ days: 1 }).toZonedDateTime({ timeZone });
  return { start: start.toInstant().toString(), end: end.toInstant().toString() };
}

/**
 * The instant of a local time ("2026-03-29T02:30", seconds allowed). "gap": the clocks skipped
 * it and the instant lies after the jump by as much; "overlap": it comes twice and this is the
 * first, or the second where `overlap` is "later". Refused: texts of another form, times that
 * are none, unknown zones.
 */
export function localTimeToInstant(
  dateTime: string,
  timeZone: string,
  overlap: "earlier" | "later" = "earlier",
): LocalInstant {
  if (!isTimeZone(timeZone)) {
    const fault = `"${timeZone.slice(0, NAME_LIMIT)}" is not a time zone`;
    return { ok: false, problem: `${fault}: choose one such as Europe/Berlin.` };
  }
  const local = readLocal(dateTime);
  if (!local) {
    const problem = `"${dateTime.slice(0, 25)}" is not a local time: write it as 2026-03-29T14:30.`;
    return { ok: false, problem };
  }
  const first = local.toZonedDateTime(timeZone, { disambiguation: "earlier" });
  const second = local.toZonedDateTime(timeZone, { disambiguation: "later" });
  if (first.epochMilliseconds === second.epochMilliseconds) {
    return { ok: true, instant: first.toInstant().toString() };
  }
  const isOverlap = first.toPlainDateTime().equals(local);
  const chosen = isOverlap && overlap === "earlier" ? first : second;
  const note = isOverlap ? "overlap" : "gap";
  return { ok: true, instant: chosen.toInstant().toString(), note };
}

function readLocal(text: string): Temporal.PlainDateTime | undefined {
  if (!LOCAL_TIME.test(text) || text.startsWith("0000")) return undefined;
  // Temporal reads a leap second as :59; a visit does not start in one.
  if (text.endsWith(":60")) return undefined;
  try {
    return Temporal.PlainDateTime.from(text, { overflow: "reject" });
  } catch {
    return undefined;
  }
}

function zoned(instant: string, timeZone: string): Temporal.ZonedDateTime {
  requireZone(timeZone);
  return Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone);
}

function requireZone(timeZone: string): void {
  if (!isTimeZone(timeZone)) throw new RangeError(`"${timeZone}" is not a time zone.`);
}
