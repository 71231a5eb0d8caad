// Requirement: one box for names, streets, postcodes, phone numbers, references and serial numbers
// (blueprint section 9: references people can say aloud). What was typed is read in every way in
// which it makes sense; nobody has to say what kind of thing it is.
import { normaliseSerial } from "../identifiers/check-serial.ts";
import { foldText } from "./fold.ts";

export interface Sought {
  /** Folded words, at most eight. */
  words: string[];
  /** The at most three longest of them, which an entry must hold or nearly hold. */
  needed: string[];
  /** As a serial number or a reference of an instrument is kept; empty where it cannot be one. */
  code: string;
  /** Spoken references that it can be, such as J-2026-0142; empty where it is none. */
  references: string[];
}

const WORDS_MOST = 8;
const NEEDED_MOST = 3;
const CODE_MOST = 64;
const LETTERS = ["C", "S", "J"] as const;
/** A number alone may be that of a reference of this year or of the years before. */
const YEARS_BACK = 4;

/**
 * @param text as typed
 * @param year of today, for references that are said without one
 */
export function readSought(text: string, year: number): Sought {
  const folded = foldText(text);
  const phone = phoneDigits(text);
  const words = phone === "" ? folded.split(" ").filter(Boolean).slice(0, WORDS_MOST) : [phone];
  const code = normaliseSerial(text);
  return {
    words,
    needed: neededOf(words),
    code: code.length <= CODE_MOST && /^[\x21-\x7e]+$/.test(code) ? code : "",
    references: referencesOf(folded.toUpperCase(), year),
  };
}

/** Words of one letter or two are in too many entries; they only help to order what is found. */
function neededOf(words: readonly string[]): string[] {
  const long = words.filter((word) => word.length > 2);
  return [...new Set(long)]
    .toSorted((left, right) => right.length - left.length)
    .slice(0, NEEDED_MOST);
}

/** Six digits and more, with nothing beside them but what phone numbers are grouped by. */
function phoneDigits(text: string): string {
  if (!/^[\s+()./-]*\d[\d\s()./-]*$/.test(text)) return "";
  const digits = text.replace(/\D/g, "").replace(/^0+/, "");
  return digits.length >= 6 ? digits : "";
}

/** "j 2026 142", "J-142" and "0142" are all J-2026-0142. */
function referencesOf(folded: string, year: number): string[] {
  const spoken = /^(?:([CSJ]) ?)?(?:(20\d\d) )?(\d{1,7})$/.exec(folded);
  if (!spoken) return [];
  const [, letter, given, number = ""] = spoken;
  const years = given ? [given] : Array.from({ length: YEARS_BACK }, (_, back) => year - back);
  const padded = number.replace(/^0+(?=\d)/, "").padStart(4, "0");
  const letters = letter ? [letter] : LETTERS;
  return letters.flatMap((kind) => years.map((of) => `${kind}-${of}-${padded}`));
}
