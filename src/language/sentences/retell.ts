// Where a page shows a sentence that was made in English: a verdict, a blocker, a refusal. A new
// sentence is given its translation in tables/, and tests/language/sentences.test.ts names those
// that have none.
import { PSEUDO, type ShownLanguage } from "../languages.ts";
import { pseudoText } from "../pseudo.ts";
import { Reteller } from "./reteller.ts";
import { SENTENCES } from "./tables/sentences.ts";
import { WORDS } from "./tables/words.ts";

const tellers = new Map<ShownLanguage, Reteller>();

function tellerOf(language: ShownLanguage): Reteller | undefined {
  if (language === "en") return undefined;
  const known = tellers.get(language);
  if (known) return known;
  const teller = language === PSEUDO ? pseudoTeller() : new Reteller(SENTENCES, WORDS);
  tellers.set(language, teller);
  return teller;
}

/** The sentence in the language; what is not known stays English. */
export const retell = (language: ShownLanguage, sentence: string): string =>
  tellerOf(language)?.tell(sentence).text ?? sentence;

/** Parts of a sentence that the language has no words for. */
export const untoldIn = (language: ShownLanguage, sentence: string): readonly string[] =>
  tellerOf(language)?.tell(sentence).untold ?? [];

function pseudoTeller(): Reteller {
  const dressed = Object.keys(SENTENCES).map((english) => [english, `⟦${dress(english)}⟧`]);
  return new Reteller(Object.fromEntries(dressed), {});
}

const dress = (template: string): string =>
  template
    .split(/(\{[^}]*\})/)
    .map((part, index) => (index % 2 === 0 ? pseudoText(part) : part))
    .join("");
