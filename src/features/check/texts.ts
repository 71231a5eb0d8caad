// What the page's script says, in the reader's language. What is only known there stands as {name}.
import { FAULT_CODES } from "../../domain/evidence/bag-fault.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";

const STATES = ["good", "bad", "none", "open"] as const;
const SAYS = [
  ...(["files", "signed", "signedGiven", "signedAlone", "stamped", "stampGiven"] as const),
  ...(["stampEnclosed", "stampUnknown", "stampNone", "stampAsked"] as const),
  ...(["record", "withheld", "paper", "paperOther", "open"] as const),
] as const;
const UNREADABLE = ["cut-off", "compressed", "odd", "other", "insecure"] as const;
const PLAIN = ["reading", "whole", "broken", "otherPaper", "unreadable", "faults", "more"] as const;

const NAMES = [
  ...["about", "at", "by", "count", "entries", "entry", "file", "folder", "found", "head", "id"],
  ...["item", "key", "list", "member", "name", "own", "percent", "place", "roots", "row", "said"],
  ...["sentence", "service", "shown", "stated", "verdicts", "why", "withheld"],
];
const AS_NAMES = Object.fromEntries(NAMES.map((name) => [name, `{${name}}`]));

/** By what is said: `state.good`, `fault.checksum`, … */
export function checkTexts(language: ShownLanguage): Record<string, string> {
  const keys = [
    ...STATES.map((name) => `state.${name}` as const),
    ...SAYS.map((name) => `says.${name}` as const),
    ...UNREADABLE.map((name) => `unreadable.${name}` as const),
    ...FAULT_CODES.map((name) => `fault.${name}` as const),
    ...PLAIN,
  ];
  return Object.fromEntries(keys.map((key) => [key, say(language, `check.${key}`, AS_NAMES)]));
}
