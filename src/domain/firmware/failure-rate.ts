// Requirement: a ring is paused when failures say so, not when one unlucky update does: the exact
// binomial interval of Clopper and Pearson (Biometrika 26 (1934), 404–413).
import { betaQuantile } from "./incomplete-beta.ts";

export interface FailureRate {
  /** Failures over tries; 0 without any try. */
  rate: number;
  /** Ends of the two-sided interval that holds the true rate with at least `confidence`. */
  low: number;
  high: number;
}

/**
 * The rate of `failed` among `tried` with its exact interval.
 * @param tried whole number, 0 or more @param failed whole number, at most `tried`
 * @param confidence between 0 and 1, 0.95 unless said. Throws RangeError for other numbers.
 */
export function failureRate(tried: number, failed: number, confidence = 0.95): FailureRate {
  const whole = Number.isInteger(tried) && Number.isInteger(failed);
  if (!whole || failed < 0 || failed > tried) {
    throw new RangeError(`${failed} of ${tried} are no failures of tries`);
  }
  if (!(confidence > 0 && confidence < 1)) throw new RangeError("confidence lies between 0 and 1");
  const alpha = 1 - confidence;
  return {
    rate: tried === 0 ? 0 : failed / tried,
    low: failed === 0 ? 0 : betaQuantile(alpha / 2, failed, tried - failed + 1),
    high: failed === tried ? 1 : betaQuantile(1 - alpha / 2, failed + 1, tried - failed),
  };
}
