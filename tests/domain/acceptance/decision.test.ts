// Decision rules: ILAC-G8:09/2019, 4.2.1 to 4.2.3 (rules as quoted in secondary pages), and
// conformance probabilities: JCGM 106:2012, 7.4 (formula; figures calculated from it).
import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, test } from "vitest";
import { decide, riskOutside } from "../../../src/domain/acceptance/decision.ts";
import type { Interval } from "../../../src/domain/acceptance/interval.ts";
import { normalBelow } from "../../../src/domain/acceptance/normal.ts";

const upTo = (high: number, highIncluded = true): Interval => ({
  high,
  highIncluded,
  lowIncluded: true,
});
const from = (low: number, lowIncluded = true): Interval => ({
  low,
  lowIncluded,
  highIncluded: true,
});

describe("four-way by an upper limit of 0.10 with U = 0.03 (ILAC-G8:09/2019 4.2.3)", () => {
  test.each([
    [0.06, "pass", 0.0038],
    [0.08, "conditional-pass", 0.0912],
    [0.11, "conditional-fail", 0.7475],
    [0.14, "fail", 0.9962],
  ])("a reading of %d is %s, with a risk of %d", (value, decision, risk) => {
    expect(decide("four-way", upTo(0.1), value, 0.03)).toBe(decision);
    expect(riskOutside(upTo(0.1), value, 0.03)).toBeCloseTo(risk, 4);
  });

  // What happens exactly on an end is ours to say: the standard leaves it to the rule's wording.
  test.each([
    [0.07, "pass"],
    [0.0701, "conditional-pass"],
    [0.1, "conditional-pass"],
    [0.1001, "conditional-fail"],
    [0.13, "conditional-fail"],
    [0.1301, "fail"],
  ])("on and beside its ends: %d is %s", (value, decision) => {
    expect(decide("four-way", upTo(0.1), value, 0.03)).toBe(decision);
  });

  test.each([
    [0.07, "conditional-pass"],
    [0.0699, "pass"],
    [0.0999, "conditional-pass"],
    [0.1, "conditional-fail"],
  ])("where the limit excludes its end, %d is %s", (value, decision) => {
    expect(decide("four-way", upTo(0.1, false), value, 0.03)).toBe(decision);
  });
});

describe("binary decisions (ILAC-G8:09/2019 4.2.1 and 4.2.2)", () => {
  test.each([
    ["simple", 0.1, "pass"],
    ["simple", 0.1001, "fail"],
    ["guarded", 0.07, "pass"],
    ["guarded", 0.0701, "guard-band"],
    ["guarded", 0.1, "guard-band"],
    ["guarded", 0.1001, "fail"],
  ] as const)("%s: %d is %s", (rule, value, decision) => {
    expect(decide(rule, upTo(0.1), value, 0.03)).toBe(decision);
  });

  test.each([
    [13, "guard-band"],
    [12.9, "guard-band"],
    [13.4, "guard-band"],
    [13.5, "pass"],
    [15.3, "pass"],
    [15.4, "guard-band"],
    [16.3, "guard-band"],
    [16.4, "fail"],
    [12.4, "fail"],
  ])("both ends are guarded: between 12.5 and 16.3 with U = 1, %d is %s", (value, decision) => {
    const interval = { low: 12.5, high: 16.3, lowIncluded: true, highIncluded: true };
    expect(decide("guarded", interval, value, 1)).toBe(decision);
  });

  test.each([
    [0.3, 0.1, 0.2],
    [0.7, 0.1, 0.6],
    [1.1, 0.2, 0.9],
    [4.35, 0.35, 4],
  ])(
    "a reading exactly on TL − U passes in spite of binary arithmetic: %d − %d",
    (limit, u, value) => {
      expect(decide("guarded", upTo(limit), value, u)).toBe("pass");
      expect(decide("four-way", upTo(limit), limit + u, u)).toBe("conditional-fail");
      expect(decide("guarded", from(value), limit, u)).toBe("pass");
    },
  );

  test("without uncertainty every rule is simple acceptance", () => {
    for (const rule of ["guarded", "four-way"] as const) {
      expect(decide(rule, upTo(0.1), 0.1, 0)).toBe("pass");
      expect(decide(rule, upTo(0.1), 0.1001, 0)).toBe("fail");
      expect(decide(rule, upTo(0.1, false), 0.1, 0)).not.toBe("pass");
    }
  });
});

describe("the risk that the true value lies outside (JCGM 106:2012 7.4)", () => {
  test("its example: y 13.6, u 1.8, between 12.5 and 16.3 conforms with 0.6626", () => {
    const interval = { low: 12.5, high: 16.3, lowIncluded: true, highIncluded: true };
    expect(1 - riskOutside(interval, 13.6, 3.6)).toBeCloseTo(0.6626, 4);
  });

  test.each([
    [1, 0.1587],
    [1.645, 0.05],
    [2, 0.0228],
  ])("one-sided, %d u from the limit: %d", (deviations, risk) => {
    expect(riskOutside(upTo(10), 10 - deviations, 2)).toBeCloseTo(risk, 4);
    expect(riskOutside(from(10), 10 + deviations, 2)).toBeCloseTo(risk, 4);
  });

  test("a guard band of U keeps a false acceptance below 2.5 % (ILAC-G8:09/2019)", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (uncertainty, value) => {
          if (decide("guarded", upTo(10), value, uncertainty) !== "pass") return;
          expect(riskOutside(upTo(10), value, uncertainty)).toBeLessThan(0.025);
        },
      ),
    );
  });

  test("the normal distribution agrees with another implementation (jstat)", () => {
    for (let z = -8; z <= 8; z += 0.05) {
      expect(normalBelow(z)).toBeCloseTo(jstat.jStat.normal.cdf(z, 0, 1), 12);
    }
  });
});
