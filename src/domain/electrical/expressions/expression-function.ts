// Acceptance limits in plans are CEL expressions. CEL has no value for "there is no such
// limit", so a refusal is thrown as a RangeError whose message is the sentence the verdict
// shows.
import type { Figure } from "../calculation.ts";

export type Argument = string | number | readonly number[];

export interface ExpressionFunction {
  /** The name an expression calls it by. */
  name: string;
  /** CEL signature; every number is a double. */
  signature: string;
  /** What each argument is and its unit, in order, and what comes back. */
  description: string;
  /** When it throws instead of answering. */
  problemWhen: string;
  /** Arguments that work, for the documentation and the tests. */
  example: readonly Argument[];
  /** @throws RangeError with a sentence when the figure does not exist */
  // biome-ignore lint/suspicious/noExplicitAny: the expression engine checks the signature.
  call: (...args: any[]) => number;
}

/** Turns a refusal into the RangeError that the expression engine expects. */
export function numberOrThrow(figure: Figure): number {
  if (figure.ok) return figure.value;
  throw new RangeError(figure.problem);
}

/** Ties a signature to the numeric function behind it. */
export function offer<Args extends readonly [Argument, ...Argument[]]>(
  signature: string,
  words: { description: string; problemWhen: string },
  example: Args,
  compute: (...args: Args) => Figure,
): ExpressionFunction {
  return {
    name: signature.slice(0, signature.indexOf("(")),
    signature,
    ...words,
    example,
    call: (...args) => numberOrThrow(compute(...(args as unknown as Args))),
  };
}
