// How a text gets onto a page. A new area of pages adds src/language/en/<area>.ts and
// src/language/es/<area>.ts with the same keys and names them in english.ts and spanish.ts (an area
// of the tablet in tablet-english.ts and tablet-spanish.ts); a template says
// {{t "area.key" name=value}}, code says say(language, "area.key", { name: value }), the tablet's
// page says phrase("area.key", { name: value }). Texts are ICU messages: {name},
// {count, plural, one {# unit} other {# units}}, {kind, select, …}.
import { IntlMessageFormat } from "intl-messageformat";
import { CATALOGUE, type MessageKey } from "./catalogue.ts";
import { LOCALES, PSEUDO, type ShownLanguage } from "./languages.ts";
import { pseudoMessage } from "./pseudo.ts";

export type MessageValues = Readonly<Record<string, string | number | null | undefined>>;

const formats = new Map<string, IntlMessageFormat>();

export function say(language: ShownLanguage, key: MessageKey, values: MessageValues = {}): string {
  const format = formatOf(language, key);
  const said = format.format({ ...values });
  return Array.isArray(said) ? said.join("") : String(said);
}

/** For texts chosen by data: whether the catalogue has the key. */
export const isMessageKey = (key: string): key is MessageKey => Object.hasOwn(CATALOGUE.en, key);

function formatOf(language: ShownLanguage, key: MessageKey): IntlMessageFormat {
  const name = `${language} ${key}`;
  const known = formats.get(name);
  if (known) return known;
  const text = language === PSEUDO ? CATALOGUE.en[key] : CATALOGUE[language][key];
  if (text === undefined) throw new Error(`the catalogue has no text ${key}`);
  const shown = language === PSEUDO ? pseudoMessage(text) : text;
  const format = new IntlMessageFormat(shown, LOCALES[language], undefined, { ignoreTag: true });
  formats.set(name, format);
  return format;
}
