// Requirement: conversions between units are exact (acceptance limits are compared after a
// conversion, and a rounding step may turn a pass into a fail). 5/9 and 0.45359237 × 9.80665
// have no exact double, so conversions run on whole-number fractions and round once at the end.

/** An exact fraction; the denominator is always above zero. Not necessarily in lowest terms. */
export interface Rational {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/** The fraction numerator/denominator. Throws RangeError for a zero denominator (a bug). */
export function rational(numerator: bigint, denominator = 1n): Rational {
  if (denominator === 0n) throw new RangeError("A fraction cannot have the denominator 0.");
  return denominator > 0n
    ? { numerator, denominator }
    : { numerator: -numerator, denominator: -denominator };
}

/** The exact sum. */
export function add(a: Rational, b: Rational): Rational {
  return {
    numerator: a.numerator * b.denominator + b.numerator * a.denominator,
    denominator: a.denominator * b.denominator,
  };
}

/** The same with the other sign. */
export function negate(a: Rational): Rational {
  return { numerator: -a.numerator, denominator: a.denominator };
}

/** The exact product. */
export function multiply(a: Rational, b: Rational): Rational {
  return {
    numerator: a.numerator * b.numerator,
    denominator: a.denominator * b.denominator,
  };
}

/** a divided by b. Throws RangeError when b is zero (a bug). */
export function divide(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator, a.denominator * b.numerator);
}

/** The same fraction in lowest terms. */
export function reduce(a: Rational): Rational {
  const divisor = greatestCommonDivisor(
    a.numerator < 0n ? -a.numerator : a.numerator,
    a.denominator,
  );
  return { numerator: a.numerator / divisor, denominator: a.denominator / divisor };
}

/** Whether two fractions are the same number. */
export function isSame(a: Rational, b: Rational): boolean {
  return a.numerator * b.denominator === b.numerator * a.denominator;
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let larger = a;
  let smaller = b;
  while (smaller !== 0n) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}
