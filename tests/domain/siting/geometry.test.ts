import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  coveredShare,
  gapBetween,
  growWithin,
  type Rectangle,
} from "../../../src/domain/siting/geometry.ts";

const rectangle = (xMm: number, yMm: number, widthMm: number, heightMm: number): Rectangle => ({
  xMm,
  yMm,
  widthMm,
  heightMm,
});
const anyRectangle = fc
  .tuple(
    fc.integer({ min: 0, max: 500 }),
    fc.integer({ min: 0, max: 500 }),
    fc.integer({ min: 1, max: 300 }),
    fc.integer({ min: 1, max: 300 }),
  )
  .map((sides) => rectangle(...sides));

describe("edge-to-edge gaps", () => {
  test("3, 4, 5: corners 300 across and 400 up are 500 apart (Pythagoras)", () => {
    expect(gapBetween(rectangle(0, 0, 100, 100), rectangle(400, 500, 10, 10))).toEqual({
      acrossMm: 300,
      upMm: 400,
      straightMm: 500,
      height: "above",
    });
  });

  test("touching and overlapping rectangles are 0 apart", () => {
    expect(gapBetween(rectangle(0, 0, 10, 10), rectangle(10, 0, 5, 5)).straightMm).toBe(0);
    expect(gapBetween(rectangle(0, 0, 10, 10), rectangle(2, 2, 5, 5)).straightMm).toBe(0);
  });

  test("sums of inches carry no dust: 0.1 in steps to 36 in are 914.4 mm", () => {
    const startMm = 0.1 * 25.4 + 0.2 * 25.4;
    const gap = gapBetween(rectangle(0, 0, startMm, 10), rectangle(startMm + 36 * 25.4, 0, 10, 10));
    expect(gap.acrossMm).toBe(914.4);
  });

  test("the gap is the same from either side, and equals the nearest pair of points", () => {
    fc.assert(
      fc.property(anyRectangle, anyRectangle, (a, b) => {
        const gap = gapBetween(a, b).straightMm;
        expect(gapBetween(b, a).straightMm).toBe(gap);
        // Clamping a point of one into the other is an independent way to the nearest pair.
        const clamp = (value: number, low: number, length: number) =>
          Math.min(Math.max(value, low), low + length);
        const x = clamp(clamp(a.xMm, b.xMm, b.widthMm), a.xMm, a.widthMm);
        const y = clamp(clamp(a.yMm, b.yMm, b.heightMm), a.yMm, a.heightMm);
        const dx = x - clamp(x, b.xMm, b.widthMm);
        const dy = y - clamp(y, b.yMm, b.heightMm);
        expect(gap).toBeCloseTo(Math.hypot(dx, dy), 2);
      }),
    );
  });
});

describe("cover", () => {
  test("the covered share equals a count of unit squares", () => {
    const small = fc.tuple(
      fc.integer({ min: 0, max: 12 }),
      fc.integer({ min: 0, max: 12 }),
      fc.integer({ min: 1, max: 8 }),
      fc.integer({ min: 1, max: 8 }),
    );
    fc.assert(
      fc.property(small, fc.array(small, { maxLength: 4 }), (sides, others) => {
        const target = rectangle(...sides);
        const covers = others.map((one) => rectangle(...one));
        let covered = 0;
        for (let x = target.xMm; x < target.xMm + target.widthMm; x += 1) {
          for (let y = target.yMm; y < target.yMm + target.heightMm; y += 1) {
            const inside = (r: Rectangle) =>
              x >= r.xMm && x < r.xMm + r.widthMm && y >= r.yMm && y < r.yMm + r.heightMm;
            if (covers.some(inside)) covered += 1;
          }
        }
        const share = covered / (target.widthMm * target.heightMm);
        expect(coveredShare(target, covers)).toBeCloseTo(share, 9);
      }),
    );
  });

  test("a grown rectangle stops at the plane's edges", () => {
    const grown = growWithin(
      rectangle(100, 200, 600, 1000),
      { besideMm: 600, aboveMm: 900 },
      { widthMm: 1000, heightMm: 2000 },
    );
    expect(grown).toEqual(rectangle(0, 200, 1000, 1800));
  });
});
