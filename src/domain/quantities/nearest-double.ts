// Requirement: a converted reading is the double nearest to the exact result (IEEE 754-2019
// 4.3.1, roundTiesToEven), so that the server, the tablet and the verifier agree to the bit.

import type { Rational } from "./rational.ts";

/** Bits kept before the one rounding step: 53 of the significand, and enough to see a tie. */
const KEPT_BITS = 66;
/** Exponent of the smallest step between doubles, 2^-1074. */
const SMALLEST_STEP = 1074;

/**
 * The double nearest to an exact fraction, ties to even; Infinity beyond the largest double.
 * Zero is always +0. Source: IEEE 754-2019 4.3.1.
 */
export function nearestDouble(exact: Rational): number {
  if (exact.numerator === 0n) return 0;
  const isNegative = exact.numerator < 0n;
  const size = sizeOf(isNegative ? -exact.numerator : exact.numerator, exact.denominator);
  return isNegative && size !== 0 ? -size : size;
}

function sizeOf(numerator: bigint, denominator: bigint): number {
  const exponent = bitLength(numerator) - bitLength(denominator);
  // Below the normal range the step no longer shrinks: rounding to 66 bits first and then to
  // the step would round twice.
  if (exponent <= -1022) return Number(roundedToStep(numerator, denominator)) * 2 ** -SMALLEST_STEP;
  const shift = KEPT_BITS - exponent;
  const scaledTop = shift > 0 ? numerator << BigInt(shift) : numerator;
  const scaledBottom = shift < 0 ? denominator << BigInt(-shift) : denominator;
  const quotient = scaledTop / scaledBottom;
  // A remainder sets the last bit, so Number() sees on which side of a tie the value lies.
  const sticky = scaledTop % scaledBottom === 0n ? quotient : quotient | 1n;
  // Two steps, because 2^exponent alone may overflow where the result does not.
  const half = Math.trunc(exponent / 2);
  return Number(sticky) * 2 ** -KEPT_BITS * 2 ** half * 2 ** (exponent - half);
}

function roundedToStep(numerator: bigint, denominator: bigint): bigint {
  const scaled = numerator << BigInt(SMALLEST_STEP);
  const quotient = scaled / denominator;
  const twiceRest = (scaled % denominator) * 2n;
  const isUp = twiceRest > denominator || (twiceRest === denominator && (quotient & 1n) === 1n);
  return isUp ? quotient + 1n : quotient;
}

function bitLength(value: bigint): number {
  const hex = value.toString(16);
  return hex.length * 4 - Math.clz32(Number.parseInt(hex.charAt(0), 16)) + 28;
}
