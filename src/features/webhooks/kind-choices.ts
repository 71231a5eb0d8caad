import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import { EVENT_KINDS } from "./raise-event.ts";

/** The kinds of events to tick, in words and as programs read them. */
export const kindChoices = (ticked: readonly string[], language: ShownLanguage) =>
  EVENT_KINDS.map((value) => ({
    ...{ value, text: say(language, `webhook.kind.${value}`), ticked: ticked.includes(value) },
  }));
