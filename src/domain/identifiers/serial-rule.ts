// Requirement: a product model's mask and check digit must fit each other before a serial is
// checked against them. The check digit is the last character (last two for MOD 97-10). It
// covers every character before it, except literals of the mask that the scheme has no value
// for ("HB-" under Luhn). Sources of the schemes: check-schemes.ts.

import { type CheckScheme, hasValidCheck, schemeFacts } from "./check-schemes.ts";
import { type Mask, type Position, parseMask } from "./mask.ts";

export interface SerialRule {
  readonly mask: string;
  readonly check: CheckScheme;
}

/** Why a rule cannot work, for whoever sets up the product model; undefined when it can. */
export function serialRuleProblem(rule: SerialRule): string | undefined {
  const reading = readRule(rule);
  return reading.ok ? undefined : reading.problem;
}

/** The mask of a rule, its last position also taking what only the check may be (X, *). */
export function readRule(
  rule: SerialRule,
): { ok: true; mask: Mask } | { ok: false; problem: string } {
  const reading = parseMask(rule.mask);
  if (!reading.ok || rule.check === "none") return reading;
  const { alphabet, checkLength, checkOnly } = schemeFacts(rule.check);
  const isDigitsOnly = !alphabet.includes("A");
  if (isDigitsOnly && reading.mask.some(({ kind }) => kind === "letter" || kind === "either")) {
    const fault = `A ${rule.check} check digit covers digits only`;
    return { ok: false, problem: `${fault}: the mask may use # but not @ or *.` };
  }
  const body = reading.mask.slice(0, -checkLength);
  const end = reading.mask.slice(-checkLength);
  const isEndFree = end.every(({ kind }) => kind === "digit" || kind === "either");
  const last = end.at(-1);
  if (
    !isEndFree ||
    !last ||
    last.kind === "literal" ||
    !body.some((position) => isCovered(position, alphabet))
  ) {
    const advice = `in # or * for the ${rule.check} check digit, after what it covers`;
    return { ok: false, problem: `The mask must end ${advice}.` };
  }
  if (checkOnly === "") return reading;
  return { ok: true, mask: [...reading.mask.slice(0, -1), { ...last, also: checkOnly }] };
}

/** Whether a serial that fits the mask carries the right check digit. */
export function isCheckValid(mask: Mask, check: CheckScheme, serial: string): boolean {
  const { alphabet } = schemeFacts(check);
  let covered = "";
  for (const [index, position] of mask.entries()) {
    if (isCovered(position, alphabet)) covered += serial.charAt(index);
  }
  return hasValidCheck(check, covered);
}

function isCovered(position: Position, alphabet: string): boolean {
  return position.kind !== "literal" || alphabet.includes(position.character);
}
