// Requirement: a product model may name the check digit its serials carry, so that a misread or
// mistyped serial is caught on the spot. Sources: GS1 General Specifications 7.9 (mod 10);
// ISO/IEC 7812-1 Annex B (Luhn); ISO/IEC 7064 (MOD 11-2, 37-2, 97-10 and 37,36).

import { hybridCheck, pureCheck } from "./iso-7064.ts";
import { gs1Mod10, luhn } from "./mod-10.ts";

export const CHECK_SCHEMES = [
  "none",
  "gs1-mod10",
  "luhn",
  "mod11-2",
  "mod37-2",
  "mod37-36",
  "mod97-10",
] as const;
export type CheckScheme = (typeof CHECK_SCHEMES)[number];

export type CheckCharacter = { ok: true; check: string } | { ok: false; problem: string };

interface SchemeFacts {
  /** Characters the protected text may have; a character's value is its place here. */
  readonly alphabet: string;
  /** Characters only the check position may have. */
  readonly checkOnly: string;
  readonly checkLength: number;
  readonly compute: (body: string) => string;
}

const DIGITS = "0123456789";
const ALPHANUMERIC = `${DIGITS}ABCDEFGHIJKLMNOPQRSTUVWXYZ`;
const LENGTH_LIMIT = 64;

const SCHEMES: Readonly<Record<CheckScheme, SchemeFacts>> = {
  none: { alphabet: "", checkOnly: "", checkLength: 0, compute: () => "" },
  "gs1-mod10": { alphabet: DIGITS, checkOnly: "", checkLength: 1, compute: gs1Mod10 },
  luhn: { alphabet: DIGITS, checkOnly: "", checkLength: 1, compute: luhn },
  "mod11-2": {
    alphabet: DIGITS,
    checkOnly: "X",
    checkLength: 1,
    compute: (body) => pureCheck(body, `${DIGITS}X`, 11, 2, 1),
  },
  "mod37-2": {
    alphabet: ALPHANUMERIC,
    checkOnly: "*",
    checkLength: 1,
    compute: (body) => pureCheck(body, `${ALPHANUMERIC}*`, 37, 2, 1),
  },
  "mod37-36": {
    alphabet: ALPHANUMERIC,
    checkOnly: "",
    checkLength: 1,
    compute: (body) => hybridCheck(body, ALPHANUMERIC),
  },
  "mod97-10": {
    alphabet: ALPHANUMERIC,
    checkOnly: "",
    checkLength: 2,
    compute: (body) => pureCheck(expandLetters(body), DIGITS, 97, 10, 2),
  },
};

/** What a scheme protects and what it adds; used to check a serial rule when it is set up. */
export function schemeFacts(scheme: CheckScheme): Omit<SchemeFacts, "compute"> {
  return SCHEMES[scheme];
}

/**
 * The check characters to put after `body`: one, or two for MOD 97-10, or "" for "none".
 * Refused: an empty body, one above 64 characters, or a character outside the scheme's alphabet
 * (digits; for MOD 37-2, MOD 37,36 and MOD 97-10 digits and capitals).
 */
export function checkCharacter(scheme: CheckScheme, body: string): CheckCharacter {
  const facts = SCHEMES[scheme];
  if (scheme === "none") return { ok: true, check: "" };
  if (body === "") return { ok: false, problem: "There is nothing to compute a check digit from." };
  if (body.length > LENGTH_LIMIT) {
    return { ok: false, problem: `A check digit covers at most ${LENGTH_LIMIT} characters.` };
  }
  for (const character of body) {
    if (facts.alphabet.includes(character)) continue;
    const fault = `"${character}" cannot be covered by a ${scheme} check digit`;
    return { ok: false, problem: `${fault}: use ${alphabetName(facts)}.` };
  }
  return { ok: true, check: facts.compute(body) };
}

/** Whether a text ends in the right check characters. Always true for "none". */
export function hasValidCheck(scheme: CheckScheme, text: string): boolean {
  if (scheme === "none") return true;
  const bodyLength = text.length - SCHEMES[scheme].checkLength;
  if (bodyLength < 1) return false;
  const computed = checkCharacter(scheme, text.slice(0, bodyLength));
  return computed.ok && computed.check === text.slice(bodyLength);
}

function alphabetName(facts: SchemeFacts): string {
  return facts.alphabet === DIGITS ? "digits only" : "digits and capital letters only";
}

/** ISO 13616 and ISO 17442 run MOD 97-10 over letters as the numbers 10 to 35. */
function expandLetters(body: string): string {
  let expanded = "";
  for (const character of body) expanded += String(ALPHANUMERIC.indexOf(character));
  return expanded;
}
