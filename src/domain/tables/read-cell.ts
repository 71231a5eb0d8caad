// Requirement: a cell becomes the value that the interface takes, so that the interface's own rules
// judge it. What cannot be read for certain (03/04/2026) is handed on as it is, for them to refuse.
import { localTimeToInstant } from "../dates/zone-time.ts";

export type CellKind = "text" | "number" | "moment" | "yes-no";

const NUMBER = /^[+-]?\d{1,15}(?:[.,]\d{1,15})?$/;
const LOCAL = /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}:\d{2}(?::\d{2})?))?$/;
const YES = new Set(["yes", "true", "1", "sí", "si", "verdadero"]);
const NO = new Set(["no", "false", "0", "falso"]);

/**
 * The value of a cell; undefined where it is empty.
 * @param timeZone IANA zone in which a moment without an offset is meant
 * @returns for "number" a number, with a decimal point or comma; for "moment" an RFC 3339 text with
 *   offset, a day standing for its first moment; for "yes-no" a boolean; else the text, trimmed
 */
export function readCell(kind: CellKind, cell: string, timeZone: string): unknown {
  const text = cell.trim();
  if (text === "") return undefined;
  if (kind === "number") return NUMBER.test(text) ? Number(text.replace(",", ".")) : text;
  if (kind === "yes-no") {
    const word = text.toLowerCase();
    if (YES.has(word)) return true;
    return NO.has(word) ? false : text;
  }
  return kind === "moment" ? readMoment(text, timeZone) : text;
}

function readMoment(text: string, timeZone: string): string {
  const local = LOCAL.exec(text);
  if (!local) return text;
  const read = localTimeToInstant(`${local[1]}T${local[2] ?? "00:00"}`, timeZone);
  return read.ok ? read.instant : text;
}
