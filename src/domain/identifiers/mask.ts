// Requirement: a product model describes its serials by a mask, not by a regular expression: an
// expression typed by a user can take exponential time on a serial typed by another (CWE-1333).
// A mask has a fixed length, so matching is one pass.
//
// Mask: # digit, @ letter A–Z, * letter or digit, \x the character x itself, {n} repeats the
// position before it n times, any other character stands for itself. Letters match in capitals.

export type Position =
  | { readonly kind: "digit" | "letter" | "either"; readonly also?: string }
  | { readonly kind: "literal"; readonly character: string };

/** One entry for each character of a serial; `also` is one more character a wildcard takes. */
export type Mask = readonly Position[];

export type MaskReading =
  | { ok: true; mask: Mask }
  | { ok: false; problem: string; position: number };

export const SERIAL_LENGTH_LIMIT = 64;
const TEXT_LIMIT = 200;
const WILDCARDS = { "#": "digit", "@": "letter", "*": "either" } as const;
const PRINTABLE = /^[!-~]$/;

/** Reads a mask, or says what is wrong at which character (counted from 1). */
export function parseMask(text: string): MaskReading {
  if (text === "") return refused(1, "The mask is empty: write # for a digit, @ for a letter");
  if (text.length > TEXT_LIMIT) return refused(TEXT_LIMIT, "The mask is too long to read");
  const mask: Position[] = [];
  let index = 0;
  while (index < text.length) {
    const element = readElement(text, index);
    if (!element.ok) return element;
    for (let count = 0; count < element.times; count += 1) mask.push(element.what);
    index = element.next;
    if (mask.length > SERIAL_LENGTH_LIMIT) {
      return refused(index, `A serial has at most ${SERIAL_LENGTH_LIMIT} characters`);
    }
  }
  return { ok: true, mask };
}

/** Whether a character may stand at a position. */
export function fits(position: Position, character: string): boolean {
  if (position.kind === "literal") return position.character === character;
  if (position.also !== undefined && position.also === character) return true;
  const isDigit = character >= "0" && character <= "9";
  const isLetter = character >= "A" && character <= "Z";
  if (position.kind === "digit") return isDigit;
  return position.kind === "letter" ? isLetter : isDigit || isLetter;
}

/** What a position takes, for a sentence: "a digit", `"-"`. */
export function describePosition(position: Position): string {
  if (position.kind === "literal") return `"${position.character}"`;
  const names = { digit: "a digit", letter: "a letter", either: "a letter or digit" };
  const also = position.also ? ` or "${position.also}"` : "";
  return names[position.kind] + also;
}

type Element = { ok: true; what: Position; times: number; next: number };

function readElement(text: string, start: number): Element | Extract<MaskReading, { ok: false }> {
  const first = text.charAt(start);
  if (first === "{" || first === "}") {
    return refused(
      start + 1,
      `"${first}" follows nothing to repeat: write \\${first} for the sign`,
    );
  }
  const isEscaped = first === "\\";
  const character = isEscaped ? text.charAt(start + 1) : first;
  if (!PRINTABLE.test(character)) {
    const what = character === "" ? "The mask ends in \\" : "A serial has no spaces or accents";
    return refused(start + 1, `${what}: use printable characters only`);
  }
  const what = isEscaped ? literal(character) : positionOf(character);
  const after = start + (isEscaped ? 2 : 1);
  if (text.charAt(after) !== "{") return { ok: true, what, times: 1, next: after };
  const repeat = /^\{([1-9]\d?)\}/.exec(text.slice(after, after + 4));
  if (!repeat) return refused(after + 1, "After { write how many, 1 to 64, and }");
  return { ok: true, what, times: Number(repeat[1]), next: after + repeat[0].length };
}

function positionOf(character: string): Position {
  const kind = WILDCARDS[character as keyof typeof WILDCARDS];
  return kind ? { kind } : literal(character);
}

function literal(character: string): Position {
  return { kind: "literal", character: character.toUpperCase() };
}

function refused(position: number, problem: string): Extract<MaskReading, { ok: false }> {
  return { ok: false, position, problem: `${problem} (character ${position} of the mask).` };
}
