import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { iecAmpacityA } from "../../../src/domain/electrical/ampacity.ts";
import { answered, numberOf, reasonOf } from "./outcomes.ts";

const AREAS = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50];
const TABLES = [
  ["pvc", 2, "B.52.2", [19.5, 27, 36, 46, 63, 85, 112, 138, 168]],
  ["pvc", 3, "B.52.4", [17.5, 24, 32, 41, 57, 76, 96, 119, 144]],
  ["xlpe", 2, "B.52.3, edition-dependent", [24, 33, 45, 58, 80, 107, 138, 171, 209]],
] as const;

describe("capacity of copper cables, method C (IEC 60364-5-52, from memory)", () => {
  it.each(
    TABLES.flatMap(([insulation, loaded, table, values]) =>
      AREAS.map((area, index) => [insulation, loaded, area, values[index]!, table] as const),
    ),
  )("%s with %s loaded, %s mm²: %s A (%s)", (insulation, loaded, area, amperes) => {
    expect(numberOf(iecAmpacityA(insulation, loaded, area))).toBe(amperes);
  });

  it.each([
    ["pvc", [1.06, 0.94, 0.87, 0.79, 0.71, 0.61, 0.5]],
    ["xlpe", [1.04, 0.96, 0.91, 0.87, 0.82, 0.76, 0.71]],
  ] as const)(
    "is derated for %s in air of 25 to 60 °C by B.52.14 (memory)",
    (insulation, factors) => {
      const base = numberOf(iecAmpacityA(insulation, 2, 10));
      for (const [index, ambientC] of [25, 35, 40, 45, 50, 55, 60].entries()) {
        const warm = numberOf(iecAmpacityA(insulation, 2, 10, ambientC));
        expect(warm / base).toBeCloseTo(factors[index]!, 9);
      }
    },
  );

  it.each([
    [1, 1],
    [2, 0.8],
    [3, 0.7],
    [4, 0.65],
    [5, 0.6],
    [6, 0.57],
    [7, 0.54],
    [8, 0.52],
    [9, 0.5],
    [10, 0.45],
    [12, 0.45],
    [13, 0.41],
    [16, 0.41],
    [17, 0.38],
    [20, 0.38],
  ])("is derated for %s bunched circuits by %s (B.52.17, from memory)", (circuits, factor) => {
    const base = numberOf(iecAmpacityA("pvc", 2, 10));
    expect(numberOf(iecAmpacityA("pvc", 2, 10, 30, circuits)) / base).toBeCloseTo(factor, 9);
  });

  it("is the tabulated one in 30 °C air with no other circuit, when neither is given", () => {
    const cable = { insulation: "pvc", loadedConductors: 2, areaMm2: 6 };
    expect(answered("ampacity-iec", cable).steps.map((step) => step.result)).toEqual([
      46, 1, 1, 46,
    ]);
    expect(answered("ampacity-nec", { awg: "10" }).steps.map((step) => step.result)).toEqual([
      35, 1, 1, 35,
    ]);
  });

  it("reads the more severe row between two rows of a factor table", () => {
    expect(numberOf(iecAmpacityA("pvc", 2, 10, 36))).toBe(numberOf(iecAmpacityA("pvc", 2, 10, 40)));
    expect(numberOf(iecAmpacityA("pvc", 2, 10, 30, 10))).toBe(
      numberOf(iecAmpacityA("pvc", 2, 10, 30, 12)),
    );
  });

  it.each([
    ["PVC at 60 °C", iecAmpacityA("pvc", 2, 10, 60), "answered"],
    ["PVC at 60.1 °C", iecAmpacityA("pvc", 2, 10, 60.1), "out-of-range"],
    ["XLPE at 80 °C", iecAmpacityA("xlpe", 2, 10, 80), "answered"],
    ["XLPE at 80.1 °C", iecAmpacityA("xlpe", 2, 10, 80.1), "out-of-range"],
    ["10 °C", iecAmpacityA("pvc", 2, 10, 10), "answered"],
    ["9.9 °C", iecAmpacityA("pvc", 2, 10, 9.9), "out-of-range"],
    ["20 circuits", iecAmpacityA("pvc", 2, 10, 30, 20), "answered"],
    ["21 circuits", iecAmpacityA("pvc", 2, 10, 30, 21), "out-of-range"],
    ["no circuit", iecAmpacityA("pvc", 2, 10, 30, 0), "bad-input"],
    ["half a circuit more", iecAmpacityA("pvc", 2, 10, 30, 1.5), "bad-input"],
    ["70 mm²", iecAmpacityA("pvc", 2, 70), "out-of-range"],
    ["XLPE with three loaded, a table not held", iecAmpacityA("xlpe", 3, 10), "not-applicable"],
    ["rubber", iecAmpacityA("rubber", 2, 10), "bad-input"],
  ])("at %s: %s", (_name, figure, expected) => {
    expect(reasonOf(figure)).toBe(expected);
  });

  it.each([
    [34.592, true],
    [34.6, false],
  ])("of 46 × 0.94 × 0.80 A carries %s A: %s", (designCurrentA, passes) => {
    const cable = { insulation: "pvc", loadedConductors: 2, areaMm2: 6, ambientC: 35, circuits: 2 };
    expect(answered("ampacity-iec", { ...cable, designCurrentA }).passes).toBe(passes);
  });

  it("never falls with a larger area, nor rises with warmer air or more circuits", () => {
    const index = fc.integer({ min: 0, max: AREAS.length - 2 });
    const air = fc.integer({ min: 10, max: 55 });
    const group = fc.integer({ min: 1, max: 19 });
    fc.assert(
      fc.property(fc.constantFrom(...TABLES), index, air, group, ([kind, loaded], i, t, n) => {
        const carried = numberOf(iecAmpacityA(kind, loaded, AREAS[i]!, t, n));
        expect(numberOf(iecAmpacityA(kind, loaded, AREAS[i + 1]!, t, n))).toBeGreaterThan(carried);
        expect(numberOf(iecAmpacityA(kind, loaded, AREAS[i]!, t + 5, n))).toBeLessThan(carried);
        const grouped = numberOf(iecAmpacityA(kind, loaded, AREAS[i]!, t, n + 1));
        expect(grouped).toBeLessThanOrEqual(carried);
      }),
    );
  });
});

describe("coordination (IEC 60364-4-43 433.1, from memory)", () => {
  const breaker = { device: "breaker-iec-60898", ibA: 28, inA: 32, izA: 36.8 };

  it.each([
    ["Ib = In", { ...breaker, ibA: 32 }, true],
    ["Ib above In", { ...breaker, ibA: 32.1 }, false],
    ["In = Iz", { ...breaker, izA: 32 }, true],
    ["In above Iz", { ...breaker, izA: 31.9 }, false],
  ])("of a breaker with %s", (_name, input, passes) => {
    expect(answered("overload-coordination", input).passes).toBe(passes);
  });

  // gG fuse: I2 = 1.6 In, so In may reach 1.45/1.6 = 0.90625 of Iz only.
  it.each([
    [29, true],
    [29.1, false],
  ])("of a gG fuse of %s A on a cable of 32 A holds: %s", (inA, passes) => {
    const input = { device: "fuse-gg", ibA: 20, inA, izA: 32 };
    expect(answered("overload-coordination", input).passes).toBe(passes);
  });

  it("has the margin of its tightest comparison", () => {
    expect(answered("overload-coordination", breaker).margin).toBe(4);
    expect(answered("overload-coordination", { ...breaker, ibA: 20, izA: 33 }).margin).toBe(1);
  });
});
