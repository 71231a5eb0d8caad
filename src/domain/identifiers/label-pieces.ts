// Requirement: cut what a scanner or the clipboard delivers into single codes. A comma may be
// part of a GS1 value, so inside an element string it cuts only where the next code plainly starts.

import { GROUP_SEPARATOR, identifierAt } from "./gs1-application-identifiers.ts";
import { gs1Mod10 } from "./mod-10.ts";

export interface LabelPiece {
  readonly form: "element-string" | "digital-link" | "plain";
  readonly text: string;
}

/** Words printed before a serial, dropped with their colon. */
const CAPTION = /^(?:s\/?n|serial(?: (?:no\.?|number))?)\s?[:=]\s*/i;
const CODE_START = /^\s*(?:\(\d{2,4}\)|https?:\/\/|\](?:C1|d2|Q3|e0|J1))/i;

const WEB_ADDRESS = /^\s*https?:\/\//i;

/** The single codes in a text, in order. */
export function splitLabel(text: string): LabelPiece[] {
  const pieces: LabelPiece[] = [];
  for (const line of text.split(/[\r\n\t]+/)) {
    for (const part of cutLine(line)) {
      const trimmed = part.replace(CAPTION, "").trim();
      if (trimmed !== "") pieces.push({ form: formOf(trimmed), text: trimmed });
    }
  }
  return pieces;
}

/** Cuts at commas and semicolons; the marks between the parts are the odd entries of the split. */
function cutLine(line: string): string[] {
  const split = line.split(/([,;])/);
  const parts: string[] = [];
  let isInElementString = false;
  for (let at = 0; at < split.length; at += 2) {
    const part = split[at] ?? "";
    const isStart = startsCode(part);
    if (isInElementString && !isStart) {
      parts.push(`${parts.pop()}${split[at - 1]}${part}`);
      continue;
    }
    parts.push(part);
    // In a web address a comma of a value is written %2C, so a bare one ends it.
    isInElementString = isStart && !WEB_ADDRESS.test(part);
  }
  return parts;
}

function startsCode(text: string): boolean {
  return CODE_START.test(text) || isScanned(text.trim());
}

function formOf(text: string): LabelPiece["form"] {
  if (WEB_ADDRESS.test(text)) return "digital-link";
  return startsCode(text) ? "element-string" : "plain";
}

/**
 * A scan without parentheses: it holds a separator, or starts with a GTIN or SSCC whose check
 * digit is right and, where more follows, with a known identifier after it. A plain number of 16
 * digits that starts with 01 passes this one time in ten, so one that ends there is left plain.
 */
function isScanned(text: string): boolean {
  if (text.includes(GROUP_SEPARATOR)) return true;
  const key = /^(?:01\d{14}|00\d{18})(?=.)/.exec(text)?.[0];
  if (!key) return false;
  const value = key.slice(2);
  const isSound = gs1Mod10(value.slice(0, -1)) === value.slice(-1);
  return isSound && identifierAt(text, key.length) !== undefined;
}
