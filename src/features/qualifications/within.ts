import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";

const PAGES = [
  { href: "/qualifications", key: "qualifications.register" },
  { href: "/qualifications/rules", key: "qualifications.rules" },
] as const;

/** Links between the register and what is asked for, this one marked. */
export const withinQualifications = (
  here: (typeof PAGES)[number]["href"],
  language: ShownLanguage,
) => PAGES.map(({ href, key }) => ({ href, text: say(language, key), current: href === here }));
