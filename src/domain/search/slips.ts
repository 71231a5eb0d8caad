// Requirement: a serial number typed with one slip of the hand still finds its unit. Four in five
// slips are one letter more, one less, another one, or two exchanged (F. J. Damerau, A technique
// for computer detection and correction of spelling errors, Communications of the ACM 7(3), 1964).

const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-";
/** Shorter codes are one slip away from too many others. */
const LENGTH_LEAST = 5;
const LENGTH_MOST = 24;

/** Every other code that one slip makes of this one, or this one of it; none for short ones. */
export function oneSlipAway(code: string): string[] {
  if (code.length < LENGTH_LEAST || code.length > LENGTH_MOST) return [];
  const found = new Set<string>();
  for (let place = 0; place <= code.length; place += 1) {
    const before = code.slice(0, place);
    const after = code.slice(place);
    for (const sign of SIGNS) found.add(`${before}${sign}${after}`);
    if (after === "") continue;
    found.add(before + after.slice(1));
    for (const sign of SIGNS) found.add(`${before}${sign}${after.slice(1)}`);
    if (after.length > 1)
      found.add(`${before}${after.charAt(1)}${after.charAt(0)}${after.slice(2)}`);
  }
  found.delete(code);
  return [...found];
}

/** The word with two neighbours exchanged, in each place: trigrams miss that in short words. */
export function exchanged(word: string): string[] {
  const found = new Set<string>();
  for (let place = 0; place + 1 < word.length; place += 1) {
    const [one = "", other = ""] = [word.charAt(place), word.charAt(place + 1)];
    if (one !== other) found.add(word.slice(0, place) + other + one + word.slice(place + 2));
  }
  return [...found];
}
