// Requirement: read and write GS1 element strings as scanned (FNC1 as the group separator 0x1D)
// and as printed under the symbol (identifiers in parentheses). Source: GS1 General
// Specifications 7.8. In the printed form an opening parenthesis that belongs to a value is
// written \( , because a bare one starts the next identifier.

import {
  elementProblem,
  GROUP_SEPARATOR,
  type Gs1Element,
  identifierAt,
  isPredefinedLength,
} from "./gs1-application-identifiers.ts";

export type ElementStringReading =
  | { ok: true; elements: Gs1Element[] }
  | { ok: false; problem: string; position: number };

export interface ElementStringOptions {
  /** "keep": an identifier may come twice with different values, as on a label of many units. */
  repeats?: "refuse" | "keep";
}

type Refusal = Extract<ElementStringReading, { ok: false }>;

/** More than any symbol holds in numerals (GS1 DataMatrix: 3,116). */
const LENGTH_LIMIT = 4000;
/** Put first by scanners: GS1-128, DataMatrix, QR, DataBar, DotCode (ISO/IEC 15424). */
const SYMBOLOGY = /^\](?:C1|d2|Q3|e0|J1)/;

/**
 * Reads a scanned or printed element string. Positions count from 1 in the text given. Refused:
 * unlisted identifiers, wrong length, characters or check digit, a date that is none, and an
 * identifier given twice with different values unless `repeats` is "keep".
 */
export function parseElementString(
  text: string,
  options: ElementStringOptions = {},
): ElementStringReading {
  if (text.length > LENGTH_LIMIT) return refused(LENGTH_LIMIT, "The text is too long for a label.");
  const start = (SYMBOLOGY.exec(text) ?? [""])[0].length;
  const reading = text.charAt(start) === "(" ? readPrinted(text, start) : readScanned(text, start);
  if (!reading.ok) return reading;
  const seen = new Map<string, string>();
  for (const { ai, value } of reading.elements) {
    if (options.repeats !== "keep" && (seen.get(ai) ?? value) !== value) {
      return refused(1, `(${ai}) comes twice with different values: scan one unit at a time.`);
    }
    seen.set(ai, value);
  }
  return reading;
}

/** Writes elements as scanned: a separator after each value of open length but the last. */
export function buildElementString(
  elements: readonly Gs1Element[],
): { ok: true; text: string } | { ok: false; problem: string } {
  let text = "";
  for (const [index, element] of elements.entries()) {
    const problem = elementProblem(element);
    if (problem) return { ok: false, problem };
    const isOpen = !isPredefinedLength(element.ai) && index < elements.length - 1;
    text += element.ai + element.value + (isOpen ? GROUP_SEPARATOR : "");
  }
  return text === "" ? { ok: false, problem: "There is nothing to write." } : { ok: true, text };
}

/** Writes elements as printed under a symbol: "(01)09506000134352(21)SN42". */
export function buildPrintedElementString(
  elements: readonly Gs1Element[],
): { ok: true; text: string } | { ok: false; problem: string } {
  const scanned = buildElementString(elements);
  if (!scanned.ok) return scanned;
  const parts = elements.map(({ ai, value }) => `(${ai})${value.replaceAll("(", "\\(")}`);
  return { ok: true, text: parts.join("") };
}

function readScanned(text: string, start: number): ElementStringReading {
  const elements: Gs1Element[] = [];
  let index = start;
  while (index < text.length) {
    if (text.charAt(index) === GROUP_SEPARATOR) {
      index += 1;
      continue;
    }
    const identifier = identifierAt(text, index);
    if (!identifier) return unknown(text, index);
    const from = index + identifier.ai.length;
    const separator = text.indexOf(GROUP_SEPARATOR, from);
    const open = separator < 0 ? text.length : separator;
    const fixed = Math.min(from + identifier.lengthMax, open);
    const end = isPredefinedLength(identifier.ai) ? fixed : open;
    const element = { ai: identifier.ai, value: text.slice(from, end) };
    const problem = elementProblem(element);
    if (problem) return refused(index + 1, problem);
    elements.push(element);
    index = end;
  }
  return elements.length > 0 ? { ok: true, elements } : refused(1, "There is nothing to read.");
}

function readPrinted(text: string, start: number): ElementStringReading {
  const elements: Gs1Element[] = [];
  let index = start;
  while (index < text.length) {
    const bracket = /^\((\d{2,4})\)\s*/.exec(text.slice(index, index + 12));
    const ai = bracket?.[1] ?? "";
    if (!bracket || identifierAt(ai, 0)?.ai !== ai) return unknown(text, index);
    const from = index + bracket[0].length;
    const end = nextBracket(text, from);
    const element = { ai, value: text.slice(from, end).replaceAll("\\(", "(").trim() };
    const problem = elementProblem(element);
    if (problem) return refused(index + 1, problem);
    elements.push(element);
    index = end;
  }
  return { ok: true, elements };
}

function nextBracket(text: string, from: number): number {
  let end = text.indexOf("(", from);
  while (end > 0 && text.charAt(end - 1) === "\\") end = text.indexOf("(", end + 1);
  return end < 0 ? text.length : end;
}

function unknown(text: string, index: number): Refusal {
  const found = text.slice(index, index + 4);
  return refused(index + 1, `"${found}" does not start an identifier this tool knows.`);
}

function refused(position: number, problem: string): Refusal {
  return { ok: false, position, problem };
}
