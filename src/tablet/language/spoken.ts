// Requirement: the page speaks its person's language, also without signal (blueprint: whoever works
// with it reads it in his own). English is in the page itself; other languages lie beside it in the
// page's own store and are loaded before anything is drawn.
import {
  isLanguage,
  LOCALES,
  languageAskedFor,
  PSEUDO,
  type ShownLanguage,
} from "../../language/languages.ts";
import { type PlainValues, plainMessage } from "../../language/message.ts";
import { TABLET_ENGLISH, type TabletKey, type TabletTexts } from "../../language/tablet-english.ts";

let texts: TabletTexts = TABLET_ENGLISH;
let spoken: ShownLanguage = "en";
let teller: ((language: ShownLanguage, sentence: string) => string) | undefined;

/** A text of the catalogue in the language of the page. */
export const phrase = (key: TabletKey, values: PlainValues = {}): string =>
  plainMessage(texts[key], LOCALES[spoken], values);

/**
 * A sentence that the rules or the service made, in the language of the page; what is not known of
 * it stays English. It is kept and sent as it was made.
 */
export const retold = (sentence: string): string => teller?.(spoken, sentence) ?? sentence;

/** How the page writes days, numbers and lists. */
export const locale = (): string => LOCALES[spoken];

/** For texts chosen by data: whether the catalogue has the key. */
export const isTabletKey = (key: string): key is TabletKey => Object.hasOwn(TABLET_ENGLISH, key);

/**
 * From now on the page speaks the person's own language, or else what the browser asks for. What
 * cannot be loaded leaves it as it was: work goes on in the wrong language rather than not at all.
 */
export async function speak(person: string | undefined): Promise<void> {
  const wanted = languageFor(person, navigator.languages);
  try {
    const [own, tell] = await Promise.all([textsIn(wanted), tellerFor(wanted)]);
    [texts, teller, spoken] = [own, tell, wanted];
  } catch {
    // The page is being opened for the first time and the signal went meanwhile.
  }
  document.documentElement.lang = spoken;
  document.title = phrase("tablet.title");
}

/** As the server chooses for its pages (src/web/language.ts). */
export function languageFor(own: string | undefined, asked: readonly string[]): ShownLanguage {
  const first = languageAskedFor(asked.join(","));
  if (first === PSEUDO) return PSEUDO;
  return isLanguage(own) ? own : (first ?? "en");
}

async function textsIn(language: ShownLanguage): Promise<TabletTexts> {
  if (language === "en") return TABLET_ENGLISH;
  if (language === PSEUDO) return (await import("./pseudo-texts.ts")).PSEUDO_TEXTS;
  return (await import("../../language/tablet-spanish.ts")).TABLET_SPANISH;
}

async function tellerFor(language: ShownLanguage): Promise<typeof teller> {
  if (language === "en") return undefined;
  return (await import("../../language/sentences/retell.ts")).retell;
}
