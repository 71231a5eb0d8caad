// Every text of the pages, the tablet and the mails, by its key.
import { ENGLISH, type MessageKey } from "./english.ts";
import type { Language } from "./languages.ts";
import { SPANISH } from "./spanish.ts";

export type { MessageKey } from "./english.ts";

export const CATALOGUE: Readonly<Record<Language, Readonly<Record<MessageKey, string>>>> = {
  en: ENGLISH,
  es: SPANISH,
};
