// The input forms and the numeric functions must agree on what a plausible number is,
// so a field takes its bounds from the same place as the checks.
import { z } from "zod";
import { BOUNDS, type Bound, type Quantity, rangeInWords } from "./bounds.ts";

/**
 * A number field of an input schema.
 *
 * @param quantity which bounds and unit apply
 * @param meaning what the number stands for, as a phrase without a full stop
 */
export function numberField(quantity: Quantity, meaning: string): z.ZodNumber {
  const bound: Bound = BOUNDS[quantity];
  const whole = bound.whole ? z.number().int() : z.number();
  return whole
    .min(bound.min)
    .max(bound.max)
    .describe(`${meaning}; ${rangeInWords(bound)}`);
}

/** A field that takes one of a few words. */
export function choiceField<const Words extends readonly [string, ...string[]]>(
  words: Words,
  meaning: string,
): z.ZodEnum<{ [Word in Words[number]]: Word }> {
  return z.enum(words).describe(meaning) as z.ZodEnum<{ [Word in Words[number]]: Word }>;
}

/** A list of readings of one quantity; 1000 is far above any board or array section. */
export function listField(quantity: Quantity, meaning: string, least: number) {
  return z.array(numberField(quantity, "One reading")).min(least).max(1000).describe(meaning);
}
