// Requirement: quantiles of the beta distribution, for exact binomial intervals. The regularised
// incomplete beta by its continued fraction (NIST DLMF 8.17.22), the logarithm of the gamma
// function by Stirling's series after a shift (DLMF 5.11.1 and 5.5.1).

const TERMS_MOST = 10_000;
const TINY = 1e-300;
const CLOSE = 1e-15;

/** I_x(a, b), the share of a beta distribution below x; a and b above 0, x from 0 to 1. */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction settles quickly below the mean; above it the mirrored one does (DLMF 8.17.4).
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const logFactor =
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x);
  return (Math.exp(logFactor) * continuedFraction(x, a, b)) / a;
}

/** The x below which the share `share` of a beta distribution lies. */
export function betaQuantile(share: number, a: number, b: number): number {
  let low = 0;
  let high = 1;
  // Halving: 60 steps are finer than a double tells apart.
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (incompleteBeta(middle, a, b) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function continuedFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < TERMS_MOST; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    value *= change;
    if (Math.abs(change - 1) < CLOSE) break;
  }
  return value;
}

const away = (value: number): number => (Math.abs(value) < TINY ? TINY : value);

const SHIFT_TO = 15;

function logGamma(z: number): number {
  let shifted = z;
  let product = 0;
  while (shifted < SHIFT_TO) {
    product += Math.log(shifted);
    shifted += 1;
  }
  const inverse = 1 / shifted;
  const square = inverse * inverse;
  const series = inverse * (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square / 1680)));
  const stirling = (shifted - 0.5) * Math.log(shifted) - shifted + Math.log(2 * Math.PI) / 2;
  return stirling + series - product;
}
