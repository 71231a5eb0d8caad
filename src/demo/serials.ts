import type { CheckScheme } from "../domain/identifiers/check-schemes.ts";
import { checkSerial } from "../domain/identifiers/check-serial.ts";
import { parseMask } from "../domain/identifiers/mask.ts";

/** Without I, O, S and Z, which a label printer makes look like digits. */
const LETTERS = "ABCDEFGHJKLMNPQRTUVWXY";
const CHECK_CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";

/** A serial that fits the model's mask and carries its check digit; the number makes it differ. */
export function serialFor(
  rule: { serialMask: string; serialCheck: CheckScheme },
  number: number,
): string {
  const reading = parseMask(rule.serialMask);
  if (!reading.ok) throw new Error(reading.problem);
  let rest = number * (rule.serialCheck === "none" ? 1 : 10);
  const nextDigit = (): string => {
    const digit = String(rest % 10);
    rest = Math.floor(rest / 10);
    return digit;
  };
  const characters = reading.mask.toReversed().map((position) => {
    if (position.kind === "literal") return position.character;
    return position.kind === "letter" ? LETTERS.charAt(number % LETTERS.length) : nextDigit();
  });
  const serial = characters.reverse().join("");
  return withCheck(rule, serial);
}

function withCheck(
  { serialMask: mask, serialCheck: check }: { serialMask: string; serialCheck: CheckScheme },
  serial: string,
): string {
  if (check === "none") return serial;
  const body = serial.slice(0, -1);
  const last = [...CHECK_CHARACTERS].find((end) => checkSerial({ mask, check }, body + end).ok);
  if (last === undefined) throw new Error(`no check digit fits ${body}`);
  return body + last;
}
