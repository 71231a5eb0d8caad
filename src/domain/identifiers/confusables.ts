// Requirement: characters that look alike on a label are suggested, never silently changed: a
// changed serial may belong to another unit. Pairs: common practice, no source.

import { fits, type Mask, type Position } from "./mask.ts";

/** The digit a letter is taken for. */
const DIGIT_FOR: Readonly<Record<string, string>> = {
  O: "0",
  Q: "0",
  D: "0",
  I: "1",
  L: "1",
  Z: "2",
  S: "5",
  G: "6",
  B: "8",
};

/** The letter a digit is most often taken for. */
const LETTER_FOR: Readonly<Record<string, string>> = {
  "0": "O",
  "1": "I",
  "2": "Z",
  "5": "S",
  "6": "G",
  "8": "B",
};

/**
 * The serial with every character that does not fit its position replaced by its look-alike, or
 * undefined when one of them has none that fits. Same length as the mask required.
 */
export function fitByLookAlikes(serial: string, mask: Mask): string | undefined {
  let suggestion = "";
  for (const [index, position] of mask.entries()) {
    const character = serial.charAt(index);
    const replacement = fits(position, character) ? character : lookAlike(character, position);
    if (replacement === undefined) return undefined;
    suggestion += replacement;
  }
  return suggestion;
}

/** Every serial that differs from this one by one look-alike and still fits the mask. */
export function singleLookAlikes(serial: string, mask: Mask): string[] {
  const found: string[] = [];
  for (const [index, position] of mask.entries()) {
    const replacement = lookAlike(serial.charAt(index), position);
    if (replacement === undefined) continue;
    found.push(serial.slice(0, index) + replacement + serial.slice(index + 1));
  }
  return found;
}

function lookAlike(character: string, position: Position): string | undefined {
  const candidates = [DIGIT_FOR[character], LETTER_FOR[character]];
  if (position.kind === "literal") {
    candidates.push(DIGIT_FOR[position.character] === character ? position.character : undefined);
  }
  return candidates.find((candidate) => candidate !== undefined && fits(position, candidate));
}
