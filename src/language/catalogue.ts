// Every text of the pages and mails, by its key. An area has one file in each language.
import { bank } from "./en/bank.ts";
import { begin } from "./en/begin.ts";
import { crews } from "./en/crews.ts";
import { due } from "./en/due.ts";
import { editor } from "./en/editor.ts";
import { fleet } from "./en/fleet.ts";
import { frame } from "./en/frame.ts";
import { held } from "./en/held.ts";
import { models } from "./en/models.ts";
import { plans } from "./en/plans.ts";
import { rounds } from "./en/rounds.ts";
import { session } from "./en/session.ts";
import { siting } from "./en/siting.ts";
import { today } from "./en/today.ts";
import { bank as bankEs } from "./es/bank.ts";
import { begin as beginEs } from "./es/begin.ts";
import { crews as crewsEs } from "./es/crews.ts";
import { due as dueEs } from "./es/due.ts";
import { editor as editorEs } from "./es/editor.ts";
import { fleet as fleetEs } from "./es/fleet.ts";
import { frame as frameEs } from "./es/frame.ts";
import { held as heldEs } from "./es/held.ts";
import { models as modelsEs } from "./es/models.ts";
import { plans as plansEs } from "./es/plans.ts";
import { rounds as roundsEs } from "./es/rounds.ts";
import { session as sessionEs } from "./es/session.ts";
import { siting as sitingEs } from "./es/siting.ts";
import { today as todayEs } from "./es/today.ts";
import type { Language } from "./languages.ts";

const EN = {
  ...bank,
  ...begin,
  ...crews,
  ...due,
  ...editor,
  ...fleet,
  ...frame,
  ...held,
  ...models,
  ...plans,
  ...rounds,
  ...session,
  ...siting,
  ...today,
} as const;

export type MessageKey = keyof typeof EN;

const ES: Readonly<Record<MessageKey, string>> = {
  ...bankEs,
  ...beginEs,
  ...crewsEs,
  ...dueEs,
  ...editorEs,
  ...fleetEs,
  ...frameEs,
  ...heldEs,
  ...modelsEs,
  ...plansEs,
  ...roundsEs,
  ...sessionEs,
  ...sitingEs,
  ...todayEs,
};

export const CATALOGUE: Readonly<Record<Language, Readonly<Record<MessageKey, string>>>> = {
  en: EN,
  es: ES,
};
