// Every calculation shows its working: a figure that goes into a ten-year record must be one that
// somebody else can follow by hand, down to the formula, the numbers put into it and the source.
import type { Calculation } from "../electrical/calculation.ts";

export type { Answer, Calculation, Outcome, Step } from "../electrical/calculation.ts";

/** A calculation that refuses input outside its schema instead of computing with it. */
export function calculation<I>(spec: Calculation<I>): Calculation<I> {
  return {
    ...spec,
    compute: (input) => {
      const parsed = spec.input.safeParse(input);
      if (parsed.success) return spec.compute(parsed.data);
      const lines = parsed.error.issues.map(
        (issue) => `${issue.path.join(".") || "input"}: ${issue.message}`,
      );
      return { ok: false, reason: "bad-input", problem: lines.join("; ") };
    },
  };
}

/** Six significant digits at most, for the substituted formula. */
export function shown(value: number): string {
  return String(Number(value.toPrecision(6)));
}
