// Requirement: a value is shown with the digits its instrument has, no more and no fewer; without
// an instrument, with the digits the trade writes (common practice, no source). Layout: number,
// space, symbol, and U+2212 for minus (SI Brochure 5.4.3; ISO 80000-1 7.3).

import { exactFromNumber, roundedDecimal } from "./decimal-text.ts";
import { counterpart, type UnitSystem } from "./display-unit.ts";
import { divide, multiply, type Rational } from "./rational.ts";
import { exactFromSi, exactToSi, type Quantity, quantityOf, UNITS, type Unit } from "./units.ts";

export interface FormatOptions {
  /** Smallest step of the instrument, in the unit of the value; above zero. */
  resolution?: number;
  /** Show in the counterpart unit of this system; a unit of both systems stays as it is. */
  system?: UnitSystem;
}

const SIGNIFICANT: Readonly<Partial<Record<Quantity, number>>> = {
  length: 5,
  resistance: 3,
  ratio: 3,
  irradiance: 3,
};
const SIGNIFICANT_OTHERWISE = 4;
/** Temperatures have no natural zero, so significant digits mean nothing there. */
const FIXED_DECIMALS: Readonly<Partial<Record<Quantity, number>>> = { temperature: 1, count: 0 };
const DECIMALS_LIMIT = 12;

/**
 * A value as people read it: "2.75 N·m", "−5 °C", "12" for a count. With a resolution trailing
 * zeros are kept ("2.50 N·m" on an instrument of 0.01), without they are dropped. Halves round
 * away from zero. For showing only: verdicts compare the unrounded value. Throws RangeError for
 * a value or resolution that is not finite, or a resolution of zero or less (bugs).
 */
export function formatQuantity(value: number, unit: Unit, options: FormatOptions = {}): string {
  const shownUnit = options.system ? counterpart(unit, options.system) : unit;
  const exact = exactFromNumber(value);
  const shown = shownUnit === unit ? exact : exactFromSi(exactToSi(exact, unit), shownUnit);
  const number =
    options.resolution === undefined
      ? withoutTrailingZeros(roundedDecimal(shown, usualDecimals(shown, quantityOf(unit))))
      : roundedDecimal(shown, decimalsOf(options.resolution, unit, shownUnit));
  const signed = number.replace("-", "\u2212");
  return shownUnit === "count" ? signed : `${signed} ${shownUnit}`;
}

function decimalsOf(resolution: number, unit: Unit, shownUnit: Unit): number {
  if (!(resolution > 0)) throw new RangeError(`The resolution ${resolution} is not above zero.`);
  const step = exactFromNumber(resolution);
  if (unit !== shownUnit) {
    const converted = divide(multiply(step, UNITS[unit].factor), UNITS[shownUnit].factor);
    return limited(-magnitude(converted));
  }
  // A step of 0.25 needs two decimals although its first digit is the first decimal.
  let decimals = 0;
  while (decimals < DECIMALS_LIMIT && !isWhole(step, decimals)) decimals += 1;
  return decimals;
}

function usualDecimals(shown: Rational, quantity: Quantity): number {
  const fixed = FIXED_DECIMALS[quantity];
  if (fixed !== undefined || shown.numerator === 0n) return fixed ?? 0;
  const digits = SIGNIFICANT[quantity] ?? SIGNIFICANT_OTHERWISE;
  return limited(digits - 1 - magnitude(shown));
}

/** The power of ten of the first digit that is not zero. */
function magnitude(value: Rational): number {
  const size = value.numerator < 0n ? -value.numerator : value.numerator;
  let power = size.toString().length - value.denominator.toString().length;
  const isBelow =
    power >= 0
      ? size < value.denominator * 10n ** BigInt(power)
      : size * 10n ** BigInt(-power) < value.denominator;
  if (isBelow) power -= 1;
  return power;
}

function isWhole(value: Rational, decimals: number): boolean {
  return (value.numerator * 10n ** BigInt(decimals)) % value.denominator === 0n;
}

function limited(decimals: number): number {
  return Math.min(Math.max(decimals, 0), DECIMALS_LIMIT);
}

function withoutTrailingZeros(text: string): string {
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}
