// Requirement: texts are compared as the database's own search compares them, so that what is told
// to be alike is what it finds. Source: PostgreSQL documentation, appendix F, pg_trgm: a word
// counts with two blanks before it and one behind it; similarity is the number of shared trigrams
// by the number of different ones.
import { foldText } from "./fold.ts";

/** The different groups of three letters of each word. */
export function trigramsOf(text: string): ReadonlySet<string> {
  const found = new Set<string>();
  for (const word of foldText(text).split(" ")) {
    if (word === "") continue;
    const padded = `  ${word} `;
    for (let place = 0; place + 3 <= padded.length; place += 1) {
      found.add(padded.slice(place, place + 3));
    }
  }
  return found;
}

/** From 0, nothing shared, to 1, the same words; two empty texts are not alike. */
export function similarity(left: string, right: string): number {
  const [one, other] = [trigramsOf(left), trigramsOf(right)];
  const shared = [...one].filter((trigram) => other.has(trigram)).length;
  const all = one.size + other.size - shared;
  return all === 0 ? 0 : shared / all;
}
