import { ERASED } from "../domain/evidence/salted-texts.ts";
import type { ShownLanguage } from "../language/languages.ts";
import { say } from "../language/say.ts";

/** What somebody wrote, as it is kept; what was erased is said to be, in the reader's language. */
export const asKept = <Text extends string | null | undefined>(
  language: ShownLanguage,
  text: Text,
): Text | string => (text === ERASED ? say(language, "job.erased") : text);
