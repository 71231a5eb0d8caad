// Requirement: what a person typed is what is converted. A reading "0.1" means one tenth, not
// the double nearest to it, so numbers enter and leave the exact arithmetic as decimal text.

import { type Rational, reduce } from "./rational.ts";

const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,5}))?$/;
const FRACTION = /^([+-]?\d+)\/(\d+)$/;
/** Bound on work: no physical reading needs more, and 10^9999 is a page of digits. */
const EXPONENT_LIMIT = 1100;
const LENGTH_LIMIT = 1500;

/**
 * The exact value of a plain decimal ("-1.50", "2e-3") or of a fraction ("9/5"); undefined when
 * the text is neither, is longer than 1,500 characters or has an exponent beyond ±1,100.
 * The decimal mark is the point; no grouping. Every finite double's own text is accepted.
 */
export function exactFromText(text: string): Rational | undefined {
  if (text.length > LENGTH_LIMIT) return undefined;
  const fraction = FRACTION.exec(text);
  if (fraction) {
    const denominator = BigInt(fraction[2] ?? "");
    if (denominator === 0n) return undefined;
    return { numerator: BigInt((fraction[1] ?? "").replace("+", "")), denominator };
  }
  const match = DECIMAL.exec(text);
  if (!match) return undefined;
  const [, sign, whole = "", part = "", power = "0"] = match;
  if (whole === "" && part === "") return undefined;
  const exponent = Number(power) - part.length;
  if (Math.abs(Number(power)) > EXPONENT_LIMIT) return undefined;
  const digits = BigInt(whole + part);
  const numerator = sign === "-" ? -digits : digits;
  return exponent >= 0
    ? { numerator: numerator * 10n ** BigInt(exponent), denominator: 1n }
    : { numerator, denominator: 10n ** BigInt(-exponent) };
}

/**
 * The exact value of the shortest decimal text that names this double (ECMA-262
 * Number::toString). Throws RangeError for NaN and the infinities (a bug).
 */
export function exactFromNumber(value: number): Rational {
  const exact = Number.isFinite(value) ? exactFromText(String(value)) : undefined;
  if (!exact) throw new RangeError(`${value} is not a finite number.`);
  return exact;
}

/** The exact decimal text of a fraction, or undefined when its decimals never end (1/3). */
export function exactDecimal(exact: Rational): string | undefined {
  const { numerator, denominator } = reduce(exact);
  const twos = factorCount(denominator, 2n);
  const fives = factorCount(denominator, 5n);
  if (2n ** BigInt(twos) * 5n ** BigInt(fives) !== denominator) return undefined;
  const decimals = Math.max(twos, fives);
  return placePoint((numerator * 10n ** BigInt(decimals)) / denominator, decimals);
}

/** The exact text of a fraction: a decimal where it ends, else "numerator/denominator". */
export function exactText(exact: Rational): string {
  const { numerator, denominator } = reduce(exact);
  return exactDecimal(exact) ?? `${numerator}/${denominator}`;
}

/**
 * A fraction rounded to a number of decimals, halves away from zero (the rule of a calibration
 * sheet; "0.125" to two decimals is "0.13"). Trailing zeros are kept; never "-0.00".
 */
export function roundedDecimal(exact: Rational, decimals: number): string {
  const scaled = exact.numerator * 10n ** BigInt(decimals) * 2n;
  const size = (scaled < 0n ? -scaled : scaled) + exact.denominator;
  const digits = size / (exact.denominator * 2n);
  return placePoint(exact.numerator < 0n ? -digits : digits, decimals);
}

function placePoint(scaled: bigint, decimals: number): string {
  const sign = scaled < 0n ? "-" : "";
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(decimals + 1, "0");
  const whole = digits.slice(0, digits.length - decimals);
  return decimals === 0 ? sign + whole : `${sign}${whole}.${digits.slice(-decimals)}`;
}

function factorCount(value: bigint, prime: bigint): number {
  let count = 0;
  let rest = value;
  while (rest % prime === 0n) {
    rest /= prime;
    count += 1;
  }
  return count;
}
