// Requirement: a serial typed or scanned in a cellar is checked against its product model's mask
// and check digit at once, and the refusal says what is wrong, where, and what to do.

import type { CheckScheme } from "./check-schemes.ts";
import { fitByLookAlikes, singleLookAlikes } from "./confusables.ts";
import { describePosition, fits, type Mask, SERIAL_LENGTH_LIMIT } from "./mask.ts";
import { isCheckValid, readRule, type SerialRule } from "./serial-rule.ts";

export interface SerialRefusal {
  ok: false;
  /** "rule": the product model's own mask or check cannot be used. */
  code: "empty" | "too-long" | "length" | "character" | "check-digit" | "rule";
  /** The first wrong character, counted from 1 in the normalised serial. */
  position?: number;
  problem: string;
  /** A serial that differs by look-alike characters only and passes mask and check. */
  suggestion?: string;
}

export type SerialCheck = { ok: true; serial: string } | SerialRefusal;

/** Bound on what is normalised at all. */
const TYPED_LIMIT = 500;
/** Spaces, and the zero-width signs that clipboards and label printers leave behind. */
const INVISIBLE = /\s|\u200B|\u200C|\u200D|\u2060|\uFEFF/;

/**
 * A serial as it is kept: spaces (also inside), line ends and zero-width signs dropped, a–z as
 * capitals. Nothing else changes; accented or full-width letters stay and are refused later.
 */
export function normaliseSerial(typed: string): string {
  const visible = typed.split(INVISIBLE).join("");
  return visible.replace(/[a-z]/g, (letter) => letter.toUpperCase());
}

/**
 * Checks a typed serial against a rule. Runs in time proportional to its length, but for a
 * suggestion, which tries at most one change for each of the 64 positions.
 */
export function checkSerial(rule: SerialRule, typed: string): SerialCheck {
  const reading = readRule(rule);
  if (!reading.ok) {
    const problem = `The serial rule of this product model is not usable: ${reading.problem}`;
    return { ok: false, code: "rule", problem };
  }
  const serial = normaliseSerial(typed.slice(0, TYPED_LIMIT));
  if (typed.length > TYPED_LIMIT || serial.length > SERIAL_LENGTH_LIMIT) {
    const advice = "scan only the serial, not the whole label";
    const problem = `A serial has at most ${SERIAL_LENGTH_LIMIT} characters: ${advice}.`;
    return { ok: false, code: "too-long", problem };
  }
  if (serial === "") {
    return { ok: false, code: "empty", problem: "There is no serial: type or scan it." };
  }
  return checkAgainst(reading.mask, rule.check, serial);
}

function checkAgainst(mask: Mask, check: CheckScheme, serial: string): SerialCheck {
  if (serial.length !== mask.length) return wrongLength(mask, serial);
  const wrong = mask.findIndex((position, index) => !fits(position, serial.charAt(index)));
  if (wrong >= 0) return wrongCharacter(mask, check, serial, wrong);
  return isCheckValid(mask, check, serial)
    ? { ok: true, serial }
    : wrongCheckDigit(mask, check, serial);
}

function wrongLength(mask: Mask, serial: string): SerialRefusal {
  const advice =
    serial.length < mask.length ? "look for what is missing" : "look for what is typed twice";
  const lengths = `${serial.length} characters; this product model's have ${mask.length}`;
  return { ok: false, code: "length", problem: `This serial has ${lengths}: ${advice}.` };
}

function wrongCharacter(
  mask: Mask,
  check: CheckScheme,
  serial: string,
  index: number,
): SerialRefusal {
  const fitting = fitByLookAlikes(serial, mask);
  const suggestion = fitting && isCheckValid(mask, check, fitting) ? fitting : undefined;
  const expected = describePosition(mask[index] ?? { kind: "either" });
  const found = `Character ${index + 1} is "${serial.charAt(index)}" where ${expected} belongs`;
  const problem = `${found}: compare it with the label`;
  return refusal("character", index + 1, problem, suggestion);
}

function wrongCheckDigit(mask: Mask, check: CheckScheme, serial: string): SerialRefusal {
  const passing = singleLookAlikes(serial, mask).filter((one) => isCheckValid(mask, check, one));
  // With two candidates either may be what the label says: naming one would be a guess.
  const suggestion = passing.length === 1 ? passing[0] : undefined;
  const problem =
    "The check digit at the end does not match: compare every character with the label";
  return refusal("check-digit", serial.length, problem, suggestion);
}

function refusal(
  code: "character" | "check-digit",
  position: number,
  problem: string,
  suggestion: string | undefined,
): SerialRefusal {
  if (!suggestion) return { ok: false, code, position, problem: `${problem}.` };
  const asked = `${problem} and see whether it says ${suggestion}.`;
  return { ok: false, code, position, problem: asked, suggestion };
}
