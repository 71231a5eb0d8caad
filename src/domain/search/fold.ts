// Requirement: what is typed finds what was meant whatever its capitals, accents and punctuation
// (Unicode Technical Standard 10, a comparison at the primary level, as far as Latin letters go).
// The database folds what it keeps by the same steps: fold_text in the migration of the registry.

/** Latin letters that no decomposition takes apart, as the alphabets that lack them write them. */
const SPELT: Readonly<Record<string, string>> = {
  ø: "o",
  ł: "l",
  đ: "d",
  ð: "d",
  ħ: "h",
  ı: "i",
  ß: "ss",
  æ: "ae",
  œ: "oe",
  þ: "th",
};
const MARKS = /[\u0300-\u036f'’ʼ`´]/g;

/**
 * The text in small letters without accents and apostrophes, everything else that is neither letter
 * nor digit as one blank: "O’Brïen, 14 Kiln-Lane" is "obrien 14 kiln lane".
 */
export function foldText(text: string): string {
  return text
    .normalize("NFKD")
    .replace(MARKS, "")
    .toLowerCase()
    .replace(/[øłđðħıßæœþ]/g, (letter) => SPELT[letter] ?? letter)
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}
