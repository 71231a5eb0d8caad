import { INJECTIONS } from "./injections.ts";
import { UNICODE } from "./unicode.ts";
import { WORDS } from "./words.ts";

const seen = new Set<string>();
const isNew = (text: string): boolean => !seen.has(text) && Boolean(seen.add(text));

/** Each kind's strings; one that is of two kinds stands under the first. */
export const NAUGHTY: readonly [kind: string, strings: readonly string[]][] = Object.entries({
  ...{ ...UNICODE, ...INJECTIONS, ...WORDS },
}).map(([kind, strings]) => [kind, strings.filter(isNew)]);

/**
 * How many parts of the strings there are, of which each record takes one: all of them come to some
 * record, and `npm run soak:strings` brings all to each.
 */
export const SHARES = Number(process.env.STRING_SHARES ?? 16);

/** The part that falls to the record that stands at the place in its list. */
export const shareOf = (place: number): string[] =>
  NAUGHTY.flatMap(([, strings]) => strings).filter((_, at) => at % SHARES === place % SHARES);

export interface Rule {
  most: number;
  /** Line ends and tabs may stand in it. */
  lines?: boolean;
  /** Kept with the blanks around it, and may be empty. */
  asTyped?: boolean;
  /** With `asTyped`: not blank all the same. */
  filled?: boolean;
  mayBeEmpty?: boolean;
  /** So many lines at most. */
  linesMost?: number;
}

/** The stated normalisation: blanks around a text are taken off, nothing else. */
export const keptAs = (text: string, { asTyped }: Rule): string => (asTyped ? text : text.trim());

/** C0, delete and C1 (ISO/IEC 6429). */
const CONTROLS = new Set([
  ...Array(32).keys(),
  ...Array.from({ length: 33 }, (_, at) => 0x7f + at),
]);
const LAYOUT = new Set([9, 10, 13]);

/** Whether a field has to refuse the text: said here once more, in other words than the code's. */
export function isRefused(text: string, rule: Rule): boolean {
  if (text === "" && rule.mayBeEmpty) return false;
  const kept = keptAs(text, rule);
  // JSON Schema counts characters (RFC 8259), not halves of them.
  const length = [...kept].length;
  if (length > rule.most || (text.trim() === "" && rule.filled) || (kept === "" && !rule.asTyped))
    return true;
  if (rule.linesMost && kept.split("\n").length > rule.linesMost) return true;
  return [...kept].some((sign) => {
    const code = sign.codePointAt(0) ?? 0;
    if (code >= 0xd800 && code <= 0xdfff) return true;
    return CONTROLS.has(code) && !(rule.lines && LAYOUT.has(code));
  });
}

/** OWASP, "CSV Injection": such a cell has an apostrophe in front. */
export const asCell = (text: string): string =>
  [..."=+-@\t\r\n\uff1d\uff0b\uff0d\uff20"].includes(text[0] ?? "") ? `'${text}` : text;
