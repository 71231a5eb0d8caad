import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import { ROLES } from "../../web/roles.ts";

/** Every role with a box to tick. */
export const roleChoices = (language: ShownLanguage, ticked: readonly string[]) =>
  ROLES.map((value) => ({
    ...{ value, text: say(language, `role.${value}`), ticked: ticked.includes(value) },
  }));
