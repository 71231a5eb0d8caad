/** Twelve digits are more than any instrument shows and fewer than binary arithmetic spoils. */
const DIGITS = 12;

/**
 * A computed number without the noise of binary arithmetic: 0.3 − 0.1 is 0.2, and 51.2 × 0.9 is
 * 46.08, so that a reading exactly on a computed limit is judged as on it.
 */
export const significant = (value: number): number => Number(value.toPrecision(DIGITS));
