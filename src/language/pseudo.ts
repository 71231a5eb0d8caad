const ACCENTS: Readonly<Record<string, string>> = {
  a: "áa",
  e: "ée",
  i: "íi",
  o: "óo",
  u: "úu",
  n: "ñ",
  c: "ç",
};

/** The text with its vowels accented and doubled. */
export const pseudoText = (text: string): string =>
  text.replace(/[aeiounc]/g, (letter) => ACCENTS[letter] ?? letter);

/**
 * An ICU message in brackets, accented and about a third longer. Braces lead in turn from words to
 * names and back, so words stand at an even depth of them.
 */
export function pseudoMessage(message: string): string {
  let depth = 0;
  const accented = message.split(/([{}])/).map((part) => {
    if (part === "{") depth += 1;
    if (part === "}") depth -= 1;
    return depth % 2 === 0 ? pseudoText(part) : part;
  });
  return `⟦${accented.join("")}⟧`;
}
