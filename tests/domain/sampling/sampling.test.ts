import { execFileSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { acceptanceChance } from "../../../src/domain/sampling/acceptance-chance.ts";
import { drawSample } from "../../../src/domain/sampling/draw-sample.ts";
import { QUALITY_LIMITS, singlePlan } from "../../../src/domain/sampling/single-plan.ts";

const choose = (all: bigint, some: bigint): bigint => {
  if (some > all) return 0n;
  let result = 1n;
  for (let step = 1n; step <= some; step++) result = (result * (all - some + step)) / step;
  return result;
};
/** Counting every way to draw, in whole numbers. */
const counted = (lot: number, size: number, accept: number, bad: number): number => {
  const [N, n, D] = [BigInt(lot), BigInt(size), BigInt(bad)];
  let ways = 0n;
  for (let k = 0n; k <= BigInt(accept) && k <= D && k <= n; k++) {
    ways += choose(D, k) * choose(N - D, n - k);
  }
  return Number((ways * 10n ** 15n) / choose(N, n)) / 1e15;
};

describe("single sampling plans, normal inspection, level II", () => {
  test.each([
    // ISO 2859-1:1999 tables 1 and 2-A, from memory.
    [8, 6.5, "A", 2, 0],
    [10, 6.5, "A", 2, 0],
    [25, 6.5, "D", 8, 1],
    [40, 1, "E", 13, 0],
    [120, 1, "E", 13, 0],
    [200, 1, "H", 50, 1],
    [150, 2.5, "F", 20, 1],
    [280, 2.5, "G", 32, 2],
    [500, 2.5, "H", 50, 3],
    [1200, 2.5, "J", 80, 5],
    [3200, 2.5, "K", 125, 7],
    [10_000, 2.5, "L", 200, 10],
    [3200, 1, "K", 125, 3],
    [10_000, 6.5, "L", 200, 21],
  ] as const)(
    "a lot of %d at %d %% is plan %s: %d, at most %d",
    (lot, limit, letter, size, most) => {
      expect(singlePlan(lot, limit)).toEqual({ letter, sampleSize: size, accept: most });
    },
  );

  test("sees all of a lot no larger than the sample, and has no plan beyond the table", () => {
    expect(singlePlan(20, 0.4)).toMatchObject({ sampleSize: 20, accept: 0 });
    expect(() => singlePlan(10_001, 1)).toThrow(RangeError);
    expect(() => singlePlan(0, 1)).toThrow(RangeError);
  });

  test("accept a lot at the limit itself with a chance of 0.84 at least", () => {
    for (const limit of QUALITY_LIMITS) {
      for (let lotSize = 100; lotSize <= 10_000; lotSize += 97) {
        const drawing = { lotSize, ...singlePlan(lotSize, limit) };
        if (drawing.sampleSize === lotSize) continue;
        const bad = Math.floor((lotSize * limit) / 100);
        expect(acceptanceChance(drawing, bad), `${lotSize} at ${limit}`).toBeGreaterThan(0.84);
      }
    }
  });
});

describe("the chance that a lot is accepted", () => {
  test("agrees with counting every way to draw", () => {
    for (const lotSize of [9, 60, 200, 1000]) {
      for (const limit of QUALITY_LIMITS) {
        const { sampleSize, accept } = singlePlan(lotSize, limit);
        for (const bad of [0, 1, 3, Math.floor(lotSize / 10), Math.floor(lotSize / 2), lotSize]) {
          const told = acceptanceChance({ lotSize, sampleSize, accept }, bad);
          expect(told).toBeCloseTo(counted(lotSize, sampleSize, accept, bad), 9);
        }
      }
    }
  });

  test("nears the binomial's published points in a large lot", () => {
    // Percent accepted with 95 % and 10 % chance, n = 20, Ac = 1 and n = 50, Ac = 3: operating
    // characteristics in ISO 2859-1 table 10, from memory (1.81 and 18.1; 2.78 and 12.9).
    const at = (sampleSize: number, accept: number, percent: number) =>
      acceptanceChance({ lotSize: 1_000_000, sampleSize, accept }, percent * 10_000);
    expect(at(20, 1, 1.81)).toBeCloseTo(0.95, 2);
    expect(at(20, 1, 18.1)).toBeCloseTo(0.1, 2);
    expect(at(50, 3, 2.78)).toBeCloseTo(0.95, 2);
    expect(at(50, 3, 12.9)).toBeCloseTo(0.1, 2);
  });
});

describe("a drawn sample", () => {
  const lot = Array.from({ length: 40 }, (_, index) => `J-2026-${1000 + index}`);
  const draw = (seed: string, from = lot) =>
    drawSample(from, { seed, size: 8, nameOf: (name) => name });

  test("is drawn again by sha256sum and sort alone", () => {
    const script =
      'while read -r n; do printf "%s:%s" "$SEED" "$n" | sha256sum | sed "s/-$/$n/"; done' +
      " | sort | head -n 8";
    const env = { ...process.env, SEED: "harbour-7", LC_ALL: "C" };
    const told = execFileSync("sh", ["-c", script], { env, input: `${lot.join("\n")}\n` });
    const names = told.toString().trim().split("\n");
    expect(draw("harbour-7")).toEqual(names.map((line) => line.split(/\s+/)[1]));
  });

  test("does not depend on the order of the lot, and differs by seed", () => {
    expect(draw("harbour-7", [...lot].reverse())).toEqual(draw("harbour-7"));
    expect(draw("harbour-8")).not.toEqual(draw("harbour-7"));
  });
});
