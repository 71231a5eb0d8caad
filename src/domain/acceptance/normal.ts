// Requirement: the specific risk of a wrong decision is the part of the reading's distribution
// beyond the limit, taken as normal (JCGM 106:2012, 7.2 and 8).

/**
 * Distribution function of the standard normal.
 * @param z deviations from the mean
 * @returns probability of a value at or below z, good to about 1e-12
 * Source: erfc by its Taylor series and its continued fraction (NIST DLMF 7.6.1 and 7.9.2).
 */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const tail = x < 2.5 ? (1 - erfSeries(x)) / 2 : erfcFraction(x) / 2;
  return z > 0 ? 1 - tail : tail;
}

/** Enough for 1e-17 where the series is used. */
const SERIES_TERMS = 60;

function erfSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < SERIES_TERMS; n += 1) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

function erfcFraction(x: number): number {
  let tail = x;
  for (let n = 80; n >= 1; n -= 1) tail = x + n / 2 / tail;
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * tail);
}
