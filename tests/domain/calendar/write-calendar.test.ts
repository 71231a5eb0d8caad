// What is written is read back by ical.js, a general-purpose reader; single lines are compared with
// the examples of the standards (RFC 5545 and RFC 6868, wording from memory).
import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { contentLine, textValue, utcValue } from "../../../src/domain/calendar/content-line.ts";
import {
  type CalendarDocument,
  type CalendarEvent,
  writeCalendar,
} from "../../../src/domain/calendar/write-calendar.ts";

const EVENT: CalendarEvent = {
  uid: "01935f3a-7b1c-7c7e-9d3a-2f1b5c6d7e8f",
  sequence: 2,
  stamp: "2026-11-20T09:00:00Z",
  start: "2026-11-26T08:30:00Z",
  end: "2026-11-26T12:00:00Z",
  status: "CONFIRMED",
  summary: "Install, bank of three; Kiln Lane",
  location: "4 Kiln Lane, Thornbeck TB4 1AA",
  description: "Reference J-2026-0142\nRing at the gate",
  url: "https://holdpoint.example/jobs/1?a=b,c",
  place: { latitude: 37.386013, longitude: -122.082932 },
  organizer: { name: 'Ada "Ann" Alder; Ltd', email: "office@alder.example" },
  attendee: { name: "Ida Rook", email: "ida@rook.example" },
};

const octets = (text: string): number => new TextEncoder().encode(text).length;
const linesOf = (text: string): string[] => text.slice(0, -2).split("\r\n");
const readBack = (text: string) => new ICAL.Component(ICAL.parse(text));
const eventOf = (text: string) => new ICAL.Event(readBack(text).getFirstSubcomponent("vevent")!);

describe("a content line", () => {
  test("is folded at 75 octets and unfolds to itself (RFC 5545 3.1)", () => {
    const text = "This is a long description that exists on a long line. ".repeat(4);
    const line = contentLine("DESCRIPTION", textValue(text));
    const lines = linesOf(line);
    expect(lines.map(octets)).toEqual([75, 75, 75, expect.any(Number)]);
    expect(lines.slice(1).every((one) => one.startsWith(" "))).toBe(true);
    expect(line.replaceAll("\r\n ", "")).toBe(`DESCRIPTION:${text}\r\n`);
  });

  test.each([
    [62, 1],
    [63, 2],
  ])("with %i more octets than its name takes %i lines", (length, count) => {
    expect(linesOf(contentLine("DESCRIPTION", "x".repeat(length + 1)))).toHaveLength(count);
  });

  test("never splits a character of several octets (RFC 5545 3.1)", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), (text) => {
        const line = contentLine("SUMMARY", textValue(text));
        const raw = new TextEncoder().encode(line);
        const decoder = new TextDecoder("utf-8", { fatal: true });
        const pieces = Buffer.from(raw).toString("latin1").slice(0, -2).split("\r\n");
        for (const piece of pieces) {
          expect(piece.length).toBeLessThanOrEqual(75);
          decoder.decode(Buffer.from(piece, "latin1"));
        }
      }),
    );
  });

  test("escapes a text as the standard's example does (RFC 5545 3.3.11)", () => {
    const text = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared.";
    expect(textValue(text)).toBe(
      "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.",
    );
    expect(textValue("a\\b;c,d\r\ne")).toBe("a\\\\b\\;c\\,d\\ne");
  });

  test("holds no control characters but the tab (RFC 5545 3.1)", () => {
    expect(textValue("a\u0000b\u0007c\u007fd\te")).toBe("abcd\te");
  });

  test("writes a quote in a parameter as the example of RFC 6868 3.1 does", () => {
    const parameters = { CN: 'George Herman "Babe" Ruth' };
    expect(contentLine("ATTENDEE", "mailto:babe@example.com", parameters)).toBe(
      "ATTENDEE;CN=George Herman ^'Babe^' Ruth:mailto:babe@example.com\r\n",
    );
  });

  test("writes a UTC time in form 2 (RFC 5545 3.3.5), to the second", () => {
    expect(utcValue("1998-01-19T07:00:00Z")).toBe("19980119T070000Z");
    expect(utcValue("1998-01-19T02:00:00.999-05:00")).toBe("19980119T070000Z");
  });
});

describe("a calendar", () => {
  const document: CalendarDocument = { method: "REQUEST", events: [EVENT] };

  test("reads back as what was written", () => {
    const text = writeCalendar(document);
    const calendar = readBack(text);
    const event = eventOf(text);
    expect(calendar.getFirstPropertyValue("version")).toBe("2.0");
    expect(calendar.getFirstPropertyValue("method")).toBe("REQUEST");
    expect(event).toMatchObject({ uid: EVENT.uid, sequence: 2, summary: EVENT.summary });
    expect(event.location).toBe(EVENT.location);
    expect(event.description).toBe(EVENT.description);
    expect(event.startDate.toJSDate().toISOString()).toBe("2026-11-26T08:30:00.000Z");
    expect(event.endDate.toJSDate().toISOString()).toBe("2026-11-26T12:00:00.000Z");
    expect(event.component.getFirstPropertyValue("status")).toBe("CONFIRMED");
    expect(event.component.getFirstPropertyValue("url")).toBe(EVENT.url);
    const organizer = event.component.getFirstProperty("organizer")!;
    expect(organizer.getFirstValue()).toBe("mailto:office@alder.example");
    expect(organizer.getParameter("cn")).toBe(EVENT.organizer!.name);
    expect(event.attendees.map((one) => one.getFirstValue())).toEqual(["mailto:ida@rook.example"]);
  });

  test("writes the place as RFC 5545 3.8.1.6 shows it", () => {
    expect(writeCalendar(document)).toContain("\r\nGEO:37.386013;-122.082932\r\n");
  });

  test("ends every line by CRLF and has each required property once (RFC 5545 3.1, 3.6.1)", () => {
    const text = writeCalendar(document);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    for (const name of ["PRODID", "VERSION", "UID", "DTSTAMP", "DTSTART", "DTEND", "SEQUENCE"]) {
      expect(text.match(new RegExp(`^${name}[:;]`, "gm")), name).toHaveLength(1);
    }
  });

  test("reads back whatever texts it was given", () => {
    const words = fc.string({ unit: "grapheme", maxLength: 120 });
    fc.assert(
      fc.property(words, words, words, (summary, location, name) => {
        const organizer = { name, email: "office@alder.example" };
        const read = eventOf(
          writeCalendar({ events: [{ ...EVENT, summary, location, organizer }] }),
        );
        expect(read.summary ?? "").toBe(kept(summary));
        expect(read.location ?? "").toBe(kept(location));
        const cn = read.component.getFirstProperty("organizer")!.getParameter("cn");
        expect(cn ?? "").toBe(kept(name));
      }),
    );
  });

  test("has a name and says how often to look (RFC 7986 5.1 and 5.7)", () => {
    const text = writeCalendar({ name: "Bo Ash: visits", refreshMinutes: 60, events: [] });
    expect(text).toContain("\r\nNAME:Bo Ash: visits\r\n");
    expect(text).toContain("\r\nREFRESH-INTERVAL;VALUE=DURATION:PT60M\r\n");
    const refresh = readBack(text).getFirstPropertyValue("refresh-interval");
    expect(String(refresh)).toMatch(/^PT(60M|1H)$/);
  });

  const cancelled = { ...EVENT, status: "CANCELLED" } as const;
  const { organizer: _organizer, ...leaderless } = EVENT;
  const { attendee: _attendee, ...unattended } = EVENT;
  test.each<[string, CalendarDocument]>([
    ["PUBLISH without an organizer (RFC 5546 3.2.1)", { method: "PUBLISH", events: [leaderless] }],
    ["REQUEST without an attendee (RFC 5546 3.2.2)", { method: "REQUEST", events: [unattended] }],
    ["CANCEL of what stands (RFC 5546 3.2.5)", { method: "CANCEL", events: [EVENT] }],
    ["REQUEST of what is cancelled", { method: "REQUEST", events: [cancelled] }],
    ["an end at its start (RFC 5545 3.6.1)", { events: [{ ...EVENT, end: EVENT.start }] }],
  ])("is not written with %s", (_what, wrong) => {
    expect(() => writeCalendar(wrong)).toThrow(RangeError);
  });

  test("is written for a cancellation, and for a publication without an attendee", () => {
    expect(writeCalendar({ method: "CANCEL", events: [cancelled] })).toContain("STATUS:CANCELLED");
    expect(writeCalendar({ method: "PUBLISH", events: [unattended] })).toContain("METHOD:PUBLISH");
  });
});

/** Control characters go, and every kind of line end is one. */
const kept = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what goes
  text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, "").replace(/\r\n|\r/g, "\n");
