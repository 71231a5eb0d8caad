import jstat from "jstat";
import { describe, expect, test } from "vitest";
import { failureRate } from "../../../src/domain/firmware/failure-rate.ts";
import { incompleteBeta } from "../../../src/domain/firmware/incomplete-beta.ts";
import { ringProgress } from "../../../src/domain/firmware/ring-progress.ts";

const { jStat } = jstat as unknown as {
  jStat: {
    beta: { inv(share: number, a: number, b: number): number };
    binomial: { cdf(k: number, n: number, p: number): number };
  };
};

describe("the exact interval (Clopper and Pearson 1934)", () => {
  test.each([
    [10, 0, 0, 0.3085],
    [10, 1, 0.0025, 0.445],
    [20, 5, 0.0866, 0.491],
    [100, 2, 0.0024, 0.0704],
  ])(
    "of %d tries with %d failures is %f to %f (tables of exact limits, from memory)",
    (n, k, l, h) => {
      const { low, high } = failureRate(n, k);
      expect(low).toBeCloseTo(l, 3);
      expect(high).toBeCloseTo(h, 3);
    },
  );

  test("is that of jStat's beta quantiles, a general-purpose library", () => {
    for (const n of [1, 7, 30, 250, 4000]) {
      for (const k of [0, 1, Math.floor(n / 3), n - 1, n]) {
        const { low, high } = failureRate(n, k);
        if (k > 0) expect(low).toBeCloseTo(jStat.beta.inv(0.025, k, n - k + 1), 6);
        if (k < n) expect(high).toBeCloseTo(jStat.beta.inv(0.975, k + 1, n - k), 6);
      }
    }
  });

  test("has in its ends the tail of the binomial that defines them", () => {
    for (const [n, k] of [
      [40, 3],
      [200, 11],
      [9, 8],
    ] as const) {
      const { low, high } = failureRate(n, k);
      expect(1 - jStat.binomial.cdf(k - 1, n, low)).toBeCloseTo(0.025, 6);
      expect(jStat.binomial.cdf(k, n, high)).toBeCloseTo(0.025, 6);
    }
  });

  test("of nothing tried is everything, and nonsense is refused", () => {
    expect(failureRate(0, 0)).toEqual({ rate: 0, low: 0, high: 1 });
    expect(() => failureRate(3, 4)).toThrow(RangeError);
    expect(() => failureRate(3, 1, 1)).toThrow(RangeError);
  });

  test("rests on a function with I_x(a,b) = 1 − I_{1−x}(b,a) (NIST DLMF 8.17.4)", () => {
    expect(incompleteBeta(0.3, 2, 5) + incompleteBeta(0.7, 5, 2)).toBeCloseTo(1, 12);
    expect(incompleteBeta(0.5, 1, 1)).toBeCloseTo(0.5, 11);
  });
});

const CRITERIA = { updatedLeast: 10, soakDays: 7, failureMost: 0.05 };
const ring = (updated: number, failed: number, daysSinceEnough?: number) =>
  ringProgress({ updated, failed, daysSinceEnough }, CRITERIA).verdict;

describe("a ring", () => {
  test.each([
    ["waits for units", 9, 0, undefined, "wait"],
    ["waits out its days", 10, 0, 6, "wait"],
    ["passes on the day", 10, 0, 7, "pass"],
    ["is not held by one early failure", 2, 1, undefined, "wait"],
    ["is held where three of four fail", 1, 3, undefined, "hold"],
    ["waits while the share is too high though chance may be why", 12, 1, 9, "wait"],
    ["passes with a failure that is within what is borne", 30, 1, 9, "pass"],
  ] as const)("%s", (_what, updated, failed, days, verdict) => {
    expect(ring(updated, failed, days)).toBe(verdict);
  });

  test("is held from the failures on at which the lower bound passes what is borne", () => {
    const held = [1, 2, 3, 4, 5].find((failed) => ring(20 - failed, failed, 9) === "hold");
    const byTable = [1, 2, 3, 4, 5].find(
      (failed) => jStat.beta.inv(0.05, failed, 20 - failed + 1) > 0.05,
    );
    expect(held).toBe(byTable);
  });
});
