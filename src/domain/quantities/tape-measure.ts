// Requirement: lengths are read as a tape measure in feet and inches gives them: 12'6",
// 1 1/2 in, 5 ft 6 1/4 in. Common practice, no source; 12 in to the foot: NIST SP 811 B.6.

import { exactDecimal, exactFromText } from "./decimal-text.ts";
import { add, multiply, rational } from "./rational.ts";

/** A length as a tape gives it, exact; undefined when the text has no such form. */
export type TapeReading =
  | { ok: true; decimalText: string; rest: string }
  | { ok: false; problem: string };

const FRACTION = /^(?:(\d{1,4})\s{1,2})?(\d{1,2})\/(\d{1,2})/;
const FEET_THEN = /^(\d{1,5})\s?(?:ft\.?|feet|foot|')\s?-?\s?(?=\d)/i;
const INCHES = /^(\d{1,2}(?:\.\d{1,4})?)/;
const INCH_MARK = /^\s?(?:in|ins|inch|inches|"|'')\.?$/i;
/** Parts into which tapes divide an inch; all of them end as decimals. */
const TAPE_PARTS = [2, 4, 8, 16, 32, 64];

/** Reads a number that starts with a fraction: "3/8", "1 1/2"; `rest` is what follows it. */
export function readFraction(text: string): TapeReading | undefined {
  const match = FRACTION.exec(text);
  if (!match) return undefined;
  const [whole, top, bottom] = [match[1] ?? "0", match[2] ?? "", match[3] ?? ""];
  if (!TAPE_PARTS.includes(Number(bottom)) || Number(top) >= Number(bottom)) {
    const advice = "write halves to 64ths, such as 1 3/8, or a decimal";
    const problem = `"${match[0]}" is not a fraction of a tape measure: ${advice}.`;
    return { ok: false, problem };
  }
  const exact = add(rational(BigInt(whole)), rational(BigInt(top), BigInt(bottom)));
  return { ok: true, decimalText: exactDecimal(exact) ?? "", rest: text.slice(match[0].length) };
}

/** Reads feet followed by inches as inches: `12'6"` is 150. Inches must stay below 12. */
export function readFeetAndInches(text: string): TapeReading | undefined {
  const feet = FEET_THEN.exec(text);
  if (!feet) return undefined;
  const after = text.slice(feet[0].length);
  const inches = readFraction(after) ?? plainInches(after);
  if (!inches.ok) return inches;
  if (inches.rest !== "" && !INCH_MARK.test(inches.rest)) return notInches(text);
  const exactInches = exactFromText(inches.decimalText);
  if (!exactInches || exactInches.numerator >= 12n * exactInches.denominator) {
    return { ok: false, problem: `"${text}": inches after feet stay below 12.` };
  }
  const total = add(multiply(rational(BigInt(feet[1] ?? "")), rational(12n)), exactInches);
  return { ok: true, decimalText: exactDecimal(total) ?? "", rest: "" };
}

function plainInches(text: string): TapeReading {
  const match = INCHES.exec(text);
  if (!match) return notInches(text);
  return { ok: true, decimalText: match[0], rest: text.slice(match[0].length) };
}

function notInches(text: string): TapeReading {
  return { ok: false, problem: `"${text}" is not a length: write it like 12' 6 1/2".` };
}
