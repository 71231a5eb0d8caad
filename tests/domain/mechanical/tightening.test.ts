import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { crossOrder } from "../../../src/domain/mechanical/cross-order.ts";
import {
  type FastenerGroupInput,
  parseFastenerGroup,
} from "../../../src/domain/mechanical/fastener-group.ts";
import { pointsOf } from "../../../src/domain/mechanical/fastener-points.ts";
import { tighteningOrder } from "../../../src/domain/mechanical/tightening-order.ts";
import { circle, grid, group } from "./sample-group.ts";

const problemOf = (input: unknown): string => {
  const parsed = parseFastenerGroup(input);
  return parsed.ok ? "" : parsed.problem;
};
const firstPass = (input: FastenerGroupInput) => tighteningOrder(group(input)).passes[0]!.order;

describe("cross pattern of ASME PCC-1 (from memory)", () => {
  test.each([
    [4, [1, 3, 2, 4]],
    [8, [1, 5, 3, 7, 2, 6, 4, 8]],
    [12, [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]],
    [16, [1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16]],
    [20, [1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19]],
    [24, [1, 13, 7, 19, 4, 16, 10, 22, 2, 14, 8, 20, 5, 17, 11, 23, 3, 15, 9, 21, 6, 18, 12, 24]],
  ])("%s bolts", (count, order) => {
    expect(crossOrder(count)).toEqual({ order, source: expect.stringContaining("ASME PCC-1") });
    expect(firstPass(circle(count))).toEqual(order);
  });

  test("five bolts make a star, every other one (seen in a secondary page)", () => {
    expect(crossOrder(5).order).toEqual([1, 3, 5, 2, 4]);
  });

  test("six bolts go in opposite pairs (common practice, no source)", () => {
    const { order, source } = crossOrder(6);
    expect(order).toEqual([1, 4, 3, 6, 2, 5]);
    expect(source).toBe("common practice, no source");
  });

  test("every bolt is named once; in even counts each second one is opposite the first", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 64 }), (count) => {
        const { order } = crossOrder(count);
        expect([...order].sort((a, b) => a - b)).toEqual(
          Array.from({ length: count }, (_, at) => at + 1),
        );
        if (count % 2 === 1) return;
        for (let at = 0; at < count; at += 2) {
          expect(Math.abs(order[at]! - order[at + 1]!)).toBe(count / 2);
        }
      }),
    );
  });

  test("from five bolts up no two neighbours follow each other at the start", () => {
    for (let count = 5; count <= 64; count += 1) {
      const [first = 0, second = 0] = crossOrder(count).order;
      const apart = Math.abs(first - second);
      expect(Math.min(apart, count - apart)).toBeGreaterThan(1);
    }
  });
});

describe("rectangles go from the middle outwards (seen in secondary pages)", () => {
  test("four corners are equally far out: crosswise", () => {
    // Numbered by rows: 1 2 over 3 4; opposite corners are 1–4 and 2–3.
    expect(firstPass(grid(2, 2))).toEqual([1, 4, 2, 3]);
    expect(tighteningOrder(group(grid(2, 2))).pattern).toBe("cross");
  });

  test("three by three starts in the middle and ends in a corner", () => {
    const order = firstPass(grid(3, 3));
    expect(order[0]).toBe(5);
    expect([1, 3, 7, 9]).toContain(order.at(-1));
    expect(tighteningOrder(group(grid(3, 3))).pattern).toBe("inside-out");
  });

  test("a row of five alternates outwards", () => {
    const order = firstPass(grid(5, 1));
    expect(order[0]).toBe(3);
    expect(new Set(order.slice(1, 3))).toEqual(new Set([2, 4]));
    expect(new Set(order.slice(3))).toEqual(new Set([1, 5]));
  });

  test("no fastener is tightened before one that is nearer the middle", () => {
    const sizes = fc.tuple(fc.integer({ min: 1, max: 8 }), fc.integer({ min: 1, max: 8 }));
    fc.assert(
      fc.property(sizes, ([columns, rows]) => {
        const parsed = group(grid(columns, rows));
        const points = pointsOf(parsed);
        const middle = { x: ((columns - 1) * 100) / 2, y: ((rows - 1) * 80) / 2 };
        const distances = firstPass(grid(columns, rows)).map((number) => {
          const point = points[number - 1]!;
          return Math.hypot(point.xMm - middle.x, point.yMm - middle.y);
        });
        const tolerance = Math.max(...distances) / 1000;
        distances.forEach((distance, at) => {
          expect(distance).toBeGreaterThanOrEqual((distances[at - 1] ?? 0) - tolerance);
        });
        expect(distances).toHaveLength(columns * rows);
      }),
    );
  });

  test("a circle given as positions, rounded to a tenth, is still taken for a circle", () => {
    const points = pointsOf(group(circle(8))).map(({ xMm, yMm }) => ({
      xMm: Math.round(xMm * 10) / 10,
      yMm: Math.round(yMm * 10) / 10,
    }));
    const input = circle(8, { pattern: { kind: "positions", points } });
    expect(tighteningOrder(group(input)).pattern).toBe("cross");
    expect(firstPass(input)).toEqual([1, 5, 3, 7, 2, 6, 4, 8]);
  });

  test("a circle turned by any angle keeps its order", () => {
    fc.assert(
      fc.property(fc.integer({ min: -360, max: 360 }), (firstAngleDeg) => {
        const pattern = { kind: "bolt-circle", diameterMm: 200, firstAngleDeg } as const;
        expect(firstPass(circle(8, { pattern }))).toEqual([1, 5, 3, 7, 2, 6, 4, 8]);
      }),
    );
  });
});

describe("passes", () => {
  test("50 % then 100 % in the same order, then a check round by number at full torque", () => {
    const { passes } = tighteningOrder(group(circle(4)));
    expect(passes.map(({ percent, torqueNm, kind }) => [percent, torqueNm, kind])).toEqual([
      [50, 4, "staged"],
      [100, 8, "staged"],
      [100, 8, "check round"],
    ]);
    expect(passes.map(({ order }) => order)).toEqual([
      [1, 3, 2, 4],
      [1, 3, 2, 4],
      [1, 2, 3, 4],
    ]);
  });

  test("stages are the group's own: 30, 70, 100 % of 11.3 N·m, without a check round", () => {
    const stages = [{ percent: 30 }, { percent: 70 }, { percent: 100 }];
    const own = group(circle(4, { torqueNm: 11.3, stages, checkRound: false }));
    expect(tighteningOrder(own).passes.map(({ torqueNm }) => torqueNm)).toEqual([3.39, 7.91, 11.3]);
  });

  test.each([
    [
      "falling stages",
      { stages: [{ percent: 100 }, { percent: 50 }] },
      "higher than the one before",
    ],
    [
      "a stage twice",
      { stages: [{ percent: 100 }, { percent: 100 }] },
      "higher than the one before",
    ],
    ["a last stage below 100 %", { stages: [{ percent: 50 }] }, "has to be 100 %"],
    ["no torque", { torqueNm: 0 }, "torqueNm"],
    ["no source of the torque", { torqueSource: "" }, "torqueSource"],
    [
      "fewer places than fasteners",
      { pattern: { kind: "rectangle", columns: 2, rows: 1, pitchXMm: 1, pitchYMm: 1 } },
      "2 places for 4 fasteners",
    ],
    [
      "two in one place",
      {
        count: 2,
        pattern: {
          kind: "positions",
          points: [
            { xMm: 1, yMm: 1 },
            { xMm: 1, yMm: 1 },
          ],
        },
      },
      "stand in one place",
    ],
    ["65 fasteners", { count: 65 }, "count"],
  ] as const)("a group with %s is refused", (_case, change, words) => {
    expect(problemOf({ ...circle(4), ...change })).toContain(words);
  });
});
