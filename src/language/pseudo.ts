import type { IntlMessageFormat } from "intl-messageformat";

type Elements = ReturnType<IntlMessageFormat["getAst"]>;
type Element = Elements[number];

const ACCENTS: Readonly<Record<string, string>> = {
  a: "á",
  e: "é",
  i: "í",
  o: "ó",
  u: "ú",
  n: "ñ",
  c: "ç",
};
const LITERAL = 0;

/** The message in brackets, its vowels accented and doubled: about a third longer. */
export function pseudoMessage(elements: Elements): Elements {
  return [literal("⟦"), ...elements.map(accented), literal("⟧")];
}

const literal = (value: string): Element => ({ type: LITERAL, value }) as Element;

function accented(element: Element): Element {
  if ("options" in element) {
    const options = Object.entries(element.options).map(([name, option]) => [
      name,
      { ...option, value: option.value.map(accented) },
    ]);
    return { ...element, options: Object.fromEntries(options) };
  }
  if (element.type !== LITERAL || !("value" in element)) return element;
  return literal(pseudoText(String(element.value)));
}

/** The text with its vowels accented and doubled. */
export const pseudoText = (text: string): string =>
  text.replace(/[aeiounc]/g, (letter) =>
    /[aeiou]/.test(letter) ? `${ACCENTS[letter]}${letter}` : (ACCENTS[letter] ?? letter),
  );
