import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  annexGDropV,
  dcDropV,
  dropLimitPercent,
  millivoltDropV,
  necDropV,
  necKDropV,
} from "../../../src/domain/electrical/voltage-drop.ts";
import { answered, numberOf, reasonOf } from "./outcomes.ts";

const RUN = { areaMm2: 6, lengthM: 20, currentA: 32 };

describe("voltage drop by IEC 60364-5-52 Annex G", () => {
  it("of 32 A over 20 m of 6 mm² at cos φ 1 is 4.800 V, 2.09 % of 230 V (secondary page)", () => {
    const answer = answered("voltage-drop-iec", { ...RUN, powerFactor: 1 });
    expect(answer.result).toBeCloseTo(4.8, 9);
    expect(answer.steps[1]?.result).toBeCloseTo(2.09, 2);
  });

  it("at cos φ 0.8 with λ 0.08 mΩ/m is 3.9014 V (λ from memory)", () => {
    expect(numberOf(annexGDropV({ ...RUN, powerFactor: 0.8 }))).toBeCloseTo(3.9014, 4);
  });

  it("is taken against 230 V, a public supply and other loads when nothing else is given", () => {
    const answer = answered("voltage-drop-iec", { ...RUN, powerFactor: 1 });
    expect(answer.steps[2]).toMatchObject({ result: 5, tableRow: "public supply, other" });
    expect(answered("voltage-drop-millivolt", RUN).steps[2]?.result).toBeCloseTo(2.0313, 4);
  });

  it("in a three-phase run is half of the single-phase drop, b being 1 instead of 2", () => {
    const single = numberOf(annexGDropV({ ...RUN, powerFactor: 0.9 }));
    const three = numberOf(annexGDropV({ ...RUN, powerFactor: 0.9, phases: "three-phase" }));
    expect(three).toBeCloseTo(single / 2, 9);
  });

  it("in aluminium is 0.036/0.0225 = 1.6 times that in copper at cos φ 1 (from memory)", () => {
    const copper = numberOf(annexGDropV({ ...RUN, powerFactor: 1 }));
    const aluminium = numberOf(annexGDropV({ ...RUN, powerFactor: 1, material: "aluminium" }));
    expect(aluminium / copper).toBeCloseTo(1.6, 9);
  });

  it("is refused for a power factor above 1 and an area of nothing", () => {
    expect(reasonOf(annexGDropV({ ...RUN, powerFactor: 1.01 }))).toBe("bad-input");
    expect(reasonOf(annexGDropV({ ...RUN, areaMm2: 0, powerFactor: 1 }))).toBe("bad-input");
  });

  it("is never less for a longer cable or a larger current, never more for a larger area", () => {
    const length = fc.double({ min: 0.1, max: 1000, noNaN: true });
    const current = fc.double({ min: 0.1, max: 400, noNaN: true });
    const area = fc.double({ min: 1, max: 300, noNaN: true });
    const power = fc.double({ min: 0.05, max: 1, noNaN: true });
    fc.assert(
      fc.property(length, current, area, power, (lengthM, currentA, areaMm2, powerFactor) => {
        const run = { lengthM, currentA, areaMm2, powerFactor };
        const drop = numberOf(annexGDropV(run));
        expect(numberOf(annexGDropV({ ...run, lengthM: lengthM * 1.5 }))).toBeGreaterThan(drop);
        expect(numberOf(annexGDropV({ ...run, currentA: currentA * 1.5 }))).toBeGreaterThan(drop);
        expect(numberOf(annexGDropV({ ...run, areaMm2: areaMm2 * 1.5 }))).toBeLessThan(drop);
      }),
    );
  });
});

describe("voltage drop limits (IEC 60364-5-52 Table G.52.1, seen in a secondary page)", () => {
  it.each([
    ["public", "lighting", 100, 3],
    ["public", "other", 100, 5],
    ["private", "lighting", 100, 6],
    ["private", "other", 100, 8],
    ["public", "lighting", 101, 3.005],
    ["public", "lighting", 150, 3.25],
    ["public", "lighting", 200, 3.5],
    ["public", "lighting", 201, 3.5],
    ["private", "other", 900, 8.5],
  ] as const)("from a %s supply, %s, %s m: %s %%", (supply, use, lengthM, percent) => {
    expect(dropLimitPercent(supply, use, lengthM)).toBeCloseTo(percent, 9);
  });

  // 2 × 0.0225 × L / 10 × 20 A = 0.09·L V; 3 % of 230 V is 6.9 V, met at 76.67 m.
  it.each([
    [76.6, true],
    [76.7, false],
  ])("let 20 A of lighting over %s m of 10 mm² pass: %s", (lengthM, passes) => {
    const run = { areaMm2: 10, lengthM, currentA: 20, powerFactor: 1, use: "lighting" };
    expect(answered("voltage-drop-iec", run).passes).toBe(passes);
  });
});

describe("voltage drop by mV/A/m (BS 7671 Table 4D1B, seen in a secondary page)", () => {
  it("of 32 A over 20 m of 6 mm² is 4.672 V", () => {
    expect(numberOf(millivoltDropV(6, 20, 32))).toBe(4.672);
  });

  it.each([
    [1.5, 29],
    [2.5, 18],
    [4, 11],
    [6, 7.3],
    [10, 4.4],
    [16, 2.8],
  ])("of 1 A over 1000 m of %s mm² is %s V", (areaMm2, volts) => {
    expect(numberOf(millivoltDropV(areaMm2, 1000, 1))).toBe(volts);
  });

  it("is refused for areas the table does not hold", () => {
    expect(reasonOf(millivoltDropV(25, 20, 32))).toBe("out-of-range");
    expect(reasonOf(millivoltDropV(1, 20, 32))).toBe("out-of-range");
  });
});

describe("voltage drop of a DC run (2·L·R·I, computed)", () => {
  it("of 10 A over 30 m of 4 mm² class 5 at 20 °C is 2.970 V", () => {
    expect(numberOf(dcDropV(5, 4, 30, 10))).toBe(2.97);
  });

  it.each([
    [0.7425, true],
    [0.7424, false],
  ])("of 0.7425 %% of 400 V is held to %s %%: %s", (maxPercent, passes) => {
    const run = { conductorClass: 5, areaMm2: 4, lengthM: 30, currentA: 10, nominalV: 400 };
    expect(answered("voltage-drop-dc", { ...run, maxPercent }).passes).toBe(passes);
  });

  it("is refused for a conductor the table does not hold, and for no current", () => {
    expect(reasonOf(dcDropV(5, 5, 30, 10))).toBe("out-of-range");
    expect(reasonOf(dcDropV(5, 4, 30, 0))).toBe("bad-input");
  });
});

describe("voltage drop by the NEC's tables and the K method (computed)", () => {
  it("of 24 A over 100 ft of 10 AWG solid is 5.808 V, 2.42 % of 240 V", () => {
    const run = { awg: "10", form: "solid", lengthFt: 100, currentA: 24, nominalV: 240 };
    const answer = answered("voltage-drop-nec", run);
    expect(answer.result).toBe(5.808);
    expect(answer.steps[2]?.result).toBe(2.42);
  });

  it("of the same run stranded is 5.952 V, and by K = 12.9 it is 5.965 V", () => {
    expect(numberOf(necDropV("10", "stranded", 100, 24))).toBe(5.952);
    expect(numberOf(necKDropV("10", 100, 24))).toBeCloseTo(5.965, 3);
  });

  it("between lines of three phases is √3/2 of the two-wire drop", () => {
    const two = numberOf(necDropV("10", "solid", 100, 24));
    expect(numberOf(necDropV("10", "solid", 100, 24, "three-phase")) / two).toBeCloseTo(
      Math.sqrt(3) / 2,
      9,
    );
  });

  // 2 × 1.21 × L × 24 / 1000 = 7.2 V (3 % of 240 V) at 123.97 ft.
  it.each([
    [123.9, true],
    [124, false],
  ])(
    "is within the advised 3 %% at %s ft: %s (NEC 210.19 note, from memory)",
    (lengthFt, passes) => {
      const run = { awg: "10", form: "solid", lengthFt, currentA: 24, nominalV: 240 };
      expect(answered("voltage-drop-nec", run).passes).toBe(passes);
    },
  );

  it("agrees between table and K method within 3 % for every gauge", () => {
    for (const awg of [
      "14",
      "12",
      "10",
      "8",
      "6",
      "4",
      "3",
      "2",
      "1",
      "1/0",
      "2/0",
      "3/0",
      "4/0",
    ]) {
      const byTable = numberOf(necDropV(awg, "stranded", 100, 20));
      expect(numberOf(necKDropV(awg, 100, 20)) / byTable).toBeGreaterThan(0.97);
      expect(numberOf(necKDropV(awg, 100, 20)) / byTable).toBeLessThan(1.03);
    }
  });

  it("is refused for unknown words", () => {
    expect(reasonOf(necDropV("10", "solid", 100, 24, "two-phase"))).toBe("bad-input");
    expect(reasonOf(necKDropV("10", 100, 24, "iron"))).toBe("bad-input");
    expect(reasonOf(necKDropV("9", 100, 24))).toBe("bad-input");
  });
});
