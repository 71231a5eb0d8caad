// Requirement: a text goes out as it came in, or is refused. Control characters (Unicode's category
// Cc: C0, delete and C1 of ISO/IEC 6429) get lost in JSON of the database, XML, mails and pages,
// and half a surrogate pair (The Unicode Standard, 3.9, D71 to D75; from memory) in any UTF-8.

/** "many": line ends and tabs may stand in it. */
export type Lines = "one" | "many";

export const NOT_ONE_LINE = "must be one line without control characters";
export const CONTROLLED = "must not hold control characters";
export const HALVED = "must be well-formed Unicode";

const CONTROL = /\p{Cc}/u;
const CONTROL_IN_LINES = /[^\P{Cc}\n\r\t]/u;

/** What a paste or a scanner left in a text that is typed, taken out before it is kept. */
export const withoutFaults = (text: string): string =>
  text.toWellFormed().replaceAll(/[^\P{Cc}\n\r\t]/gu, "");

/** Why a text cannot be kept as it is; undefined where it can. */
export function textFault(text: string, lines: Lines): string | undefined {
  if (!text.isWellFormed()) return HALVED;
  if (lines === "one") return CONTROL.test(text) ? NOT_ONE_LINE : undefined;
  return CONTROL_IN_LINES.test(text) ? CONTROLLED : undefined;
}
