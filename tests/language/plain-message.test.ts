// The small reader of ICU messages against intl-messageformat (FormatJS), on every text of the
// tablet in every language, with made-up values.
import { IntlMessageFormat } from "intl-messageformat";
import { describe, expect, test } from "vitest";
import { LANGUAGES, LOCALES, PSEUDO } from "../../src/language/languages.ts";
import { type PlainValues, plainMessage } from "../../src/language/message.ts";
import { pseudoMessage } from "../../src/language/pseudo.ts";
import { TABLET_ENGLISH, type TabletTexts } from "../../src/language/tablet-english.ts";
import { TABLET_SPANISH } from "../../src/language/tablet-spanish.ts";

const TEXTS: Readonly<Record<(typeof LANGUAGES)[number] | typeof PSEUDO, TabletTexts>> = {
  en: TABLET_ENGLISH,
  es: TABLET_SPANISH,
  [PSEUDO]: Object.fromEntries(
    Object.entries(TABLET_ENGLISH).map(([key, text]) => [key, pseudoMessage(text)]),
  ) as TabletTexts,
};
const NUMBERS = [0, 1, 2, 7, 1_000, 12_345, 1_000_000];
const WORDS = ["", "closed", "own", "left", "done", "Ida’s # {wall}", 'a "quoted" name'];

type Elements = ReturnType<IntlMessageFormat["getAst"]>;

/** The library's kinds of element: 1 a name alone, 5 a choice, 6 a number of things. */
function kindsOf(elements: Elements, kinds = new Map<string, number>()): Map<string, number> {
  for (const element of elements) {
    if ("value" in element && [1, 5, 6].includes(element.type)) {
      kinds.set(String(element.value), Math.max(element.type, kinds.get(`${element.value}`) ?? 0));
    }
    if ("options" in element) {
      for (const { value } of Object.values(element.options)) kindsOf(value, kinds);
    }
  }
  return kinds;
}

/** Every text with each of the numbers, and of the words where words may stand. */
function valuesFor(kinds: ReadonlyMap<string, number>): PlainValues[] {
  return NUMBERS.map((number, index) =>
    Object.fromEntries(
      [...kinds].map(([name, kind], place) => {
        const word = WORDS[(index + place) % WORDS.length] ?? "";
        return [name, kind === 6 ? number : kind === 5 || index % 2 === 0 ? word : number];
      }),
    ),
  );
}

describe.each([...LANGUAGES, PSEUDO] as const)("in %s", (language) => {
  test("the tablet's texts are said as the library says them", () => {
    const locale = LOCALES[language];
    let compared = 0;
    for (const text of Object.values(TEXTS[language])) {
      const format = new IntlMessageFormat(text, locale, undefined, { ignoreTag: true });
      for (const values of valuesFor(kindsOf(format.getAst()))) {
        expect(plainMessage(text, locale, values), text).toBe(format.format({ ...values }));
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(1_500);
  });
});

// Examples of the ICU user guide's "Formatting Messages" (from memory) that the texts do not show.
test.each([
  ["{n, plural, =0 {none} one {# thing} other {# things}}", { n: 0 }, "none"],
  ["{n, plural, =0 {none} one {# thing} other {# things}}", { n: 1 }, "1 thing"],
  [
    "{n, plural, other {{who} has # of {of}}}",
    { n: 2_500, who: "Ida", of: 9 },
    "Ida has 2,500 of 9",
  ],
  ["{k, select, a {{n, plural, one {# x} other {# y}}} other {-}}", { k: "a", n: 2 }, "2 y"],
  ["{k, select, a {A} other {B}} and {k}", { k: "z" }, "B and z"],
  ["no. # of {n}", { n: 4 }, "no. # of 4"],
])("%s with %j is %s, as the library has it", (text, values, said) => {
  expect(plainMessage(text, "en-GB", values)).toBe(said);
  expect(new IntlMessageFormat(text, "en-GB").format(values)).toBe(said);
});

test("a brace that is not closed is told rather than read on for ever", () => {
  expect(() => plainMessage("{n, plural, one {#", "en", { n: 1 })).toThrow("not closed");
});
