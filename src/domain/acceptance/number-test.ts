// Requirement: a limit on a number is either an interval or an expression; both answer the same
// question, under each decision rule, and both can say in words what was needed.
import type { CompiledLimit } from "../plan/compile.ts";
import type { DecisionRule } from "../plan/item.ts";
import type { Measured } from "./answer.ts";
import { type Decision, decide, decideBeyond, ofThree, riskOutside } from "./decision.ts";
import { describeInterval, type Interval } from "./interval.ts";
import { intervalOf, type Names } from "./limits.ts";

export type Decided = { ok: true; decision: Decision } | { ok: false; problem: string };

/** A limit worked out for one reading. */
export interface NumberTest {
  /** "at least 38 V". */
  needed: string;
  interval?: Interval;
  decide(rule: DecisionRule, measured: Measured, uncertainty: number): Decided;
  /** Probability that the true value is not accepted; undefined where it cannot be told. */
  risk(value: number, uncertainty: number): number | undefined;
}

export type TestOrProblem = { ok: true; test: NumberTest } | { ok: false; problem: string };
export type NumberLimit = Exclude<CompiledLimit, { kind: "one-of" }>;

/**
 * A limit written in plain numbers is the same for every reading, so it is worked out and worded
 * once.
 */
const fixed = new WeakMap<NumberLimit, TestOrProblem>();

/** Works the limit out with what is known. */
export function numberTest(limit: NumberLimit, unit: string, names: Names): TestOrProblem {
  const known = fixed.get(limit);
  if (known) return known;
  if (limit.kind === "expression") return { ok: true, test: expressionTest(limit, names) };
  let readsNames = false;
  const bounds = intervalOf(limit, () => {
    readsNames = true;
    return names();
  });
  const test = bounds.ok
    ? { ok: true as const, test: intervalTest(bounds.interval, unit) }
    : { ok: false as const, problem: bounds.problem };
  if (!readsNames) fixed.set(limit, test);
  return test;
}

function intervalTest(interval: Interval, unit: string): NumberTest {
  return {
    needed: describeInterval(interval, unit),
    interval,
    decide: (rule, { number, qualifier }, uncertainty) => ({
      ok: true,
      decision: qualifier
        ? decideBeyond(rule, interval, { value: number, qualifier }, uncertainty)
        : decide(rule, interval, number, uncertainty),
    }),
    risk: (value, uncertainty) => riskOutside(interval, value, uncertainty),
  };
}

/**
 * An expression may accept any set of values, so uncertainty is counted at the ends of what the
 * reading may stand for; a reading beyond the instrument's range stands for more than an expression
 * can be asked.
 */
function expressionTest(
  { expression, words }: Extract<NumberLimit, { kind: "expression" }>,
  names: Names,
): NumberTest {
  return {
    needed: words,
    decide: (rule, { number, qualifier }, uncertainty) => {
      if (qualifier) return { ok: true, decision: "fail" };
      const known = names();
      const asked = rule === "simple" ? [0] : [0, -uncertainty, uncertainty];
      const holds: boolean[] = [];
      for (const offset of asked) {
        const result = expression.evaluate({ ...known, value: number + offset });
        if (!result.ok) return result;
        holds.push(result.value === true);
      }
      const isInside = holds[0] === true;
      if (rule === "simple") return { ok: true, decision: isInside ? "pass" : "fail" };
      return {
        ok: true,
        decision: ofThree(rule, isInside, holds.every(Boolean), holds.some(Boolean)),
      };
    },
    risk: () => undefined,
  };
}
