// Requirement: conversions are exact and rounded once (blueprint: reading → verdict).
// Source of the factors: units.ts.

import { exactFromNumber, exactFromText, exactText } from "./decimal-text.ts";
import { nearestDouble } from "./nearest-double.ts";
import { divide, multiply, type Rational, reduce } from "./rational.ts";
import { exactFromSi, exactToSi, isUnit, quantityOf, UNITS, type Unit } from "./units.ts";

/** A converted value, or one sentence saying why there is none. */
export type Conversion = { ok: true; value: number } | { ok: false; problem: string };

/**
 * A value in another unit of the same quantity: the double nearest to the exact conversion of
 * the value's shortest decimal text, so convert(0.1, "m", "mm") is 100. Beyond the largest
 * double the result is Infinity. Throws RangeError for units of different quantities or a value
 * that is not finite (bugs; use tryConvert for unchecked input).
 */
export function convert(value: number, from: Unit, to: Unit): number {
  requireSameQuantity(from, to);
  const exact = exactFromNumber(value);
  return from === to ? value + 0 : nearestDouble(exactFromSi(exactToSi(exact, from), to));
}

/** As convert, for unchecked input: the refusal is a value. */
export function tryConvert(value: number, from: string, to: string): Conversion {
  if (!isUnit(from)) return { ok: false, problem: `"${from}" is not a unit this tool knows.` };
  if (!isUnit(to)) return { ok: false, problem: `"${to}" is not a unit this tool knows.` };
  if (quantityOf(from) !== quantityOf(to)) return { ok: false, problem: mismatch(from, to) };
  if (!Number.isFinite(value)) return { ok: false, problem: "The value must be a finite number." };
  const converted = convert(value, from, to);
  return Number.isFinite(converted)
    ? { ok: true, value: converted }
    : { ok: false, problem: `${value} ${from} is too large to be given in ${to}.` };
}

/**
 * The exact conversion of a decimal ("2.75") or fraction ("9/5") text. `text` is exact: a
 * decimal where it ends, else a fraction, and can be converted back without any loss; `value`
 * is the nearest double.
 */
export function convertDecimal(
  text: string,
  from: Unit,
  to: Unit,
): { ok: true; text: string; value: number; exact: Rational } | { ok: false; problem: string } {
  requireSameQuantity(from, to);
  const given = exactFromText(text);
  if (!given) return { ok: false, problem: `"${text.slice(0, 40)}" is not a decimal number.` };
  const exact = reduce(exactFromSi(exactToSi(given, from), to));
  return { ok: true, text: exactText(exact), value: nearestDouble(exact), exact };
}

/**
 * A difference in another unit: only the step counts, not the zero point, so a rise of 10 K is
 * 10 °C or 18 °F. Same errors as convert. Source: NIST SP 811 B.8 (temperature interval).
 */
export function convertDifference(value: number, from: Unit, to: Unit): number {
  requireSameQuantity(from, to);
  const exact = exactFromNumber(value);
  if (from === to) return value + 0;
  return nearestDouble(divide(multiply(exact, UNITS[from].factor), UNITS[to].factor));
}

/** The stored SI value of a typed value (units: see exactToSi). Throws for NaN or infinity. */
export function toSi(value: number, unit: Unit): number {
  return nearestDouble(exactToSi(exactFromNumber(value), unit));
}

/** The value in a unit of a stored SI value. Throws for NaN or infinity. */
export function fromSi(valueSi: number, unit: Unit): number {
  return nearestDouble(exactFromSi(exactFromNumber(valueSi), unit));
}

function requireSameQuantity(from: Unit, to: Unit): void {
  if (quantityOf(from) !== quantityOf(to)) throw new RangeError(mismatch(from, to));
}

function mismatch(from: Unit, to: Unit): string {
  const quantities = `${from} is a unit of ${quantityOf(from)} and ${to} one of ${quantityOf(to)}`;
  return `${quantities}: they do not convert into each other.`;
}
