// Requirement: a visit stands in the calendars of those who go and of those who are visited, moves
// there when it is moved, and is struck out when it is cancelled. Source: RFC 5545 (iCalendar) for
// the form, RFC 5546 sections 3.2.1, 3.2.2 and 3.2.5 for what each method must carry, RFC 7986
// sections 5.1, 5.3 and 5.7 for a calendar's name, for ids that are plain UUIDs, and for how often
// to look again. Times are written in UTC, so no time zone has to be described (3.3.5 form 2).

import { contentLine, textValue, utcValue } from "./content-line.ts";

export interface CalendarAddress {
  name: string;
  email: string;
}

export interface CalendarEvent {
  /** The same for all the life of what it stands for. */
  uid: string;
  /** Rises with each change of time or state; 0 at first (RFC 5545 3.8.7.4). */
  sequence: number;
  /** Instant of its last change, or of the message where there is a method (3.8.7.2). */
  stamp: string;
  start: string;
  end: string;
  status: "CONFIRMED" | "CANCELLED";
  summary: string;
  location?: string;
  description?: string;
  /** An absolute address, written as it is. */
  url?: string;
  /** Degrees north and east. */
  place?: { latitude: number; longitude: number };
  organizer?: CalendarAddress;
  attendee?: CalendarAddress;
}

export interface CalendarDocument {
  /** Without one it is a calendar that is looked at, not a message. */
  method?: "PUBLISH" | "REQUEST" | "CANCEL";
  name?: string;
  refreshMinutes?: number;
  events: readonly CalendarEvent[];
}

/**
 * The text of an iCalendar object, UTF-8, lines ended by CRLF; the same document gives the same
 * text. Instants are RFC 3339. RangeError for an event that does not end after its start (3.6.1),
 * or that lacks what its method takes (RFC 5546), which are bugs of the caller.
 */
export function writeCalendar({ method, name, refreshMinutes, events }: CalendarDocument): string {
  const lines = [
    contentLine("BEGIN", "VCALENDAR"),
    contentLine("VERSION", "2.0"),
    contentLine("PRODID", "-//Holdpoint//Visits//EN"),
    contentLine("CALSCALE", "GREGORIAN"),
  ];
  if (method) lines.push(contentLine("METHOD", method));
  if (name) lines.push(contentLine("NAME", textValue(name)));
  if (refreshMinutes) {
    lines.push(contentLine("REFRESH-INTERVAL", `PT${refreshMinutes}M`, { VALUE: "DURATION" }));
  }
  for (const event of events) {
    requireComplete(event, method);
    lines.push(...eventLines(event));
  }
  return [...lines, contentLine("END", "VCALENDAR")].join("");
}

function requireComplete(event: CalendarEvent, method: CalendarDocument["method"]): void {
  const { uid, organizer, attendee, status } = event;
  if (utcValue(event.end) <= utcValue(event.start)) {
    throw new RangeError(`The event ${uid} does not end after its start.`);
  }
  if (method && !organizer) throw new RangeError(`${method} of ${uid} takes an organizer.`);
  if (method && method !== "PUBLISH" && !attendee) {
    throw new RangeError(`${method} of ${uid} takes an attendee.`);
  }
  if ((method === "CANCEL" && status !== "CANCELLED") || (method === "REQUEST" && !isOn(event))) {
    throw new RangeError(`${method} of ${uid} does not go with ${status}.`);
  }
}

const isOn = ({ status }: CalendarEvent): boolean => status === "CONFIRMED";

function eventLines(event: CalendarEvent): string[] {
  const { location, description, url, place, organizer, attendee } = event;
  return [
    contentLine("BEGIN", "VEVENT"),
    contentLine("UID", textValue(event.uid)),
    contentLine("DTSTAMP", utcValue(event.stamp)),
    contentLine("SEQUENCE", String(event.sequence)),
    contentLine("STATUS", event.status),
    contentLine("DTSTART", utcValue(event.start)),
    contentLine("DTEND", utcValue(event.end)),
    contentLine("SUMMARY", textValue(event.summary)),
    ...(location ? [contentLine("LOCATION", textValue(location))] : []),
    ...(place
      ? [contentLine("GEO", `${degrees(place.latitude)};${degrees(place.longitude)}`)]
      : []),
    ...(description ? [contentLine("DESCRIPTION", textValue(description))] : []),
    ...(url ? [contentLine("URL", url)] : []),
    ...(organizer ? [addressLine("ORGANIZER", organizer)] : []),
    ...(attendee ? [addressLine("ATTENDEE", attendee, { RSVP: "FALSE" })] : []),
    contentLine("END", "VEVENT"),
  ];
}

/** RFC 5545 3.8.1.6: six decimal places are enough for about a metre. */
const degrees = (value: number): string => value.toFixed(6);

const addressLine = (
  name: string,
  { name: person, email }: CalendarAddress,
  parameters: Readonly<Record<string, string>> = {},
): string =>
  contentLine(name, `mailto:${encodeURI(email)}`, {
    ...(person ? { CN: person } : {}),
    ...parameters,
  });
