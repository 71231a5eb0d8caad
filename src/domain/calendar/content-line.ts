// Requirement: calendars of others read our lines whatever a title or an address holds. Source:
// RFC 5545 section 3.1 (lines and folding), 3.2 (parameters), 3.3.11 (text); RFC 6868 section 3
// for what a quoted parameter could not hold otherwise.

import { Temporal } from "temporal-polyfill";

const LINE_OCTETS_MOST = 75;
// biome-ignore lint/suspicious/noControlCharactersInRegex: leaving them out is the point
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g;

/**
 * One content line with its CRLF, folded so that no line is longer than 75 octets of UTF-8 and no
 * character is split (RFC 5545 3.1). `value` is written as it stands: see `textValue`.
 */
export function contentLine(
  name: string,
  value: string,
  parameters: Readonly<Record<string, string>> = {},
): string {
  const written = Object.entries(parameters).map(([key, text]) => `;${key}=${quoted(text)}`);
  return `${fold(`${name}${written.join("")}:${value}`)}\r\n`;
}

/** A value of type TEXT: backslash, semicolon, comma and line ends escaped (RFC 5545 3.3.11). */
export function textValue(text: string): string {
  return plain(text)
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replace(/\r\n|\r|\n/g, "\\n");
}

/** An instant (RFC 3339) as a date with UTC time: "20261126T083000Z" (RFC 5545 3.3.5 form 2). */
export function utcValue(instant: string): string {
  const moment = Temporal.Instant.from(instant);
  return moment.toString({ smallestUnit: "second" }).replace(/[-:]/g, "");
}

/** Text without the control characters that no content line may hold (RFC 5545 3.1). */
const plain = (text: string): string => text.toWellFormed().replace(CONTROL, "");

/** In quotes where a sign would end the value; a quote itself by RFC 6868. */
function quoted(text: string): string {
  const kept = plain(text)
    .replaceAll("^", "^^")
    .replaceAll('"', "^'")
    .replace(/\r\n|\r|\n/g, "^n");
  return /[:;,]/.test(kept) ? `"${kept}"` : kept;
}

function fold(line: string): string {
  const lines: string[] = [];
  let current = "";
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character);
    if (octets + size > LINE_OCTETS_MOST) {
      lines.push(current);
      // The space that marks a continuation counts too.
      [current, octets] = [" ", 1];
    }
    current += character;
    octets += size;
  }
  return [...lines, current].join("\r\n");
}

function octetsOf(character: string): number {
  const point = character.codePointAt(0) ?? 0;
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
}
