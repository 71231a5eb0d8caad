import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { maxZsOhm } from "../../../src/domain/electrical/loop-impedance.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

// BS 7671 Table 41.3 as printed (rounded), seen quoted in a secondary page.
const RATINGS = [6, 10, 16, 20, 25, 32, 40, 50, 63];
const PRINTED = {
  B: [7.28, 4.37, 2.73, 2.19, 1.75, 1.37, 1.09, 0.87, 0.69],
  C: [3.64, 2.19, 1.37, 1.09, 0.87, 0.68, 0.55, 0.44, 0.35],
} as const;

const rows = (["B", "C"] as const).flatMap((curve) =>
  RATINGS.map((rating, index) => ({ curve, rating, printed: PRINTED[curve][index]! })),
);

describe("largest earth-loop impedance", () => {
  it.each(rows)("of $curve$rating is $printed Ω as printed in BS 7671 Table 41.3", (row) => {
    const limit = numberOf(maxZsOhm(row.curve, row.rating));
    expect(Math.abs(limit - row.printed)).toBeLessThanOrEqual(0.005 + 1e-9);
  });

  it("of D32 is half that of C32, the D multiple being twice the C one (IEC 60898-1)", () => {
    expect(numberOf(maxZsOhm("D", 32))).toBeCloseTo(numberOf(maxZsOhm("C", 32)) / 2, 9);
  });

  it("of a cold B32 is 1.0925 Ω by the 80 % rule, from 1.3656 (BS 7671 App. 3)", () => {
    expect(numberOf(maxZsOhm("B", 32))).toBe(1.365625);
    expect(numberOf(maxZsOhm("B", 32, "eighty-percent"))).toBe(1.0925);
  });

  it("of a cold B16 is 1.917 Ω by the two-thirds rule (IEC 60364-6 Annex D, from memory)", () => {
    expect(numberOf(maxZsOhm("B", 16, "two-thirds"))).toBeCloseTo(1.917, 3);
  });

  it.each([
    ["1.0925", 1.0925, true],
    ["1.0926, though 0.8 × the printed 1.37 is 1.096", 1.0926, false],
    ["1.096, which only the rounded limit lets through", 1.096, false],
    ["1.0924", 1.0924, true],
  ])("judges a cold B32 reading of %s Ω", (_name, measuredOhm, passes) => {
    const answer = answered("max-earth-loop-impedance", {
      curve: "B",
      ratingA: 32,
      rule: "eighty-percent",
      measuredOhm,
    });
    expect(answer.passes).toBe(passes);
    expect(answer.margin).toBeCloseTo(1.0925 - measuredOhm, 9);
    expect(answer.steps.map((step) => step.result)).toEqual([5, 160, 1.0925]);
  });

  it("follows an overridden voltage factor: 230 × 1 / 160 = 1.4375 Ω for B32", () => {
    expect(answered("max-earth-loop-impedance", { curve: "B", ratingA: 32, cMin: 1 }).result).toBe(
      1.4375,
    );
  });

  it("is not applicable in a TT system and points to the electrode", () => {
    const refusal = refused("max-earth-loop-impedance", { system: "TT", curve: "B", ratingA: 32 });
    expect(refusal.reason).toBe("not-applicable");
    expect(refusal.problem).toContain("tt-electrode-resistance");
  });

  it.each([
    ["curve A", maxZsOhm("A", 32)],
    ["a rating of 126 A (IEC 60898-1 ends at 125 A)", maxZsOhm("B", 126)],
    ["a rating of 0", maxZsOhm("B", 0)],
    ["a rating that is not a number", maxZsOhm("B", Number.NaN)],
    ["an unknown rule", maxZsOhm("B", 32, "ninety-percent")],
    ["a voltage factor of 1.1", maxZsOhm("B", 32, "tabulated", 230, 1.1)],
  ])("is refused for %s", (_name, figure) => {
    expect(reasonOf(figure)).toBe("bad-input");
  });

  it("is given at the last rating of IEC 60898-1, 125 A", () => {
    expect(numberOf(maxZsOhm("B", 125))).toBeCloseTo((230 * 0.95) / 625, 9);
  });

  it("is U0 · Cmin / Ia for every curve, rating and voltage", () => {
    const multiple = { B: 5, C: 10, D: 20 };
    const curves = fc.constantFrom("B" as const, "C" as const, "D" as const);
    fc.assert(
      fc.property(
        curves,
        fc.integer({ min: 1, max: 125 }),
        fc.integer({ min: 60, max: 400 }),
        (curve, rating, u0V) => {
          const limit = numberOf(maxZsOhm(curve, rating, "tabulated", u0V));
          expect(limit * multiple[curve] * rating).toBeCloseTo(u0V * 0.95, 6);
        },
      ),
    );
  });

  it("never grows with the rating", () => {
    const ratings = fc.tuple(fc.integer({ min: 1, max: 124 }), fc.integer({ min: 1, max: 124 }));
    fc.assert(
      fc.property(ratings, ([one, other]) => {
        const small = numberOf(maxZsOhm("C", Math.min(one, other)));
        expect(numberOf(maxZsOhm("C", Math.max(one, other)))).toBeLessThanOrEqual(small);
      }),
    );
  });
});
