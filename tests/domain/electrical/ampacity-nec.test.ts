import { describe, expect, it } from "vitest";
import { necAmpacityA } from "../../../src/domain/electrical/ampacity.ts";
import { NEC_GAUGES } from "../../../src/domain/electrical/tables/conductors-nec.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

describe("ampacity of copper by gauge (NEC Table 310.16, 75 °C, seen in a secondary page)", () => {
  it.each([
    ["14", 20],
    ["12", 25],
    ["10", 35],
    ["8", 50],
    ["6", 65],
    ["4", 85],
    ["2", 115],
    ["1/0", 150],
    ["2/0", 175],
    ["4/0", 230],
    ["3", 100],
    ["1", 130],
    ["3/0", 200],
  ])("%s AWG: %s A (3, 1 and 3/0 from memory)", (awg, amperes) => {
    expect(numberOf(necAmpacityA(awg))).toBe(amperes);
  });

  it("of 12 AWG in 40 °C air is 25 × 0.88 = 22 A (310.15(B)(1), secondary page)", () => {
    expect(numberOf(necAmpacityA("12", 40))).toBe(22);
  });

  it.each([
    ["3 conductors", necAmpacityA("10", 30, 3), 35],
    ["4 conductors", necAmpacityA("10", 30, 4), 28],
    ["6 conductors", necAmpacityA("10", 30, 6), 28],
    ["7 conductors", necAmpacityA("10", 30, 7), 24.5],
    ["9 conductors", necAmpacityA("10", 30, 9), 24.5],
    ["10 conductors", necAmpacityA("10", 30, 10), 17.5],
    ["20 conductors", necAmpacityA("10", 30, 20), 17.5],
    ["21 conductors", necAmpacityA("10", 30, 21), 15.75],
    ["30 conductors", necAmpacityA("10", 30, 30), 15.75],
    ["31 conductors", necAmpacityA("10", 30, 31), 14],
    ["40 conductors", necAmpacityA("10", 30, 40), 14],
    ["41 conductors", necAmpacityA("10", 30, 41), 12.25],
  ])("of 10 AWG with %s together follows 310.15(C)(1) (from memory)", (_name, figure, amperes) => {
    expect(numberOf(figure)).toBeCloseTo(amperes, 9);
  });

  it("is refused above 70 °C and for a gauge the table lacks", () => {
    expect(numberOf(necAmpacityA("10", 70))).toBeCloseTo(35 * 0.33, 9);
    expect(reasonOf(necAmpacityA("10", 70.1))).toBe("out-of-range");
    expect(reasonOf(necAmpacityA("5"))).toBe("bad-input");
  });

  it("never falls from a gauge to the next thicker one", () => {
    const values = NEC_GAUGES.map((awg) => numberOf(necAmpacityA(awg)));
    expect([...values].sort((a, b) => a - b)).toEqual(values);
  });

  it.each([
    [22, true],
    [22.1, false],
  ])("of 12 AWG at 40 °C carries %s A: %s", (loadA, passes) => {
    expect(answered("ampacity-nec", { awg: "12", ambientC: 40, loadA }).passes).toBe(passes);
  });
});

describe("protection of small conductors (NEC 240.4(D), seen in a secondary page)", () => {
  it.each([
    ["14", 15],
    ["12", 20],
    ["10", 30],
  ])("caps %s AWG copper at %s A, whatever it carries", (awg, capA) => {
    const input = { awg, ampacityA: 100 };
    expect(answered("small-conductor-protection", { ...input, deviceA: capA }).passes).toBe(true);
    const over = answered("small-conductor-protection", { ...input, deviceA: capA + 0.1 });
    expect(over.passes).toBe(false);
    expect(over.result).toBe(capA);
    expect(answered("ampacity-nec", { awg }).notes.join(" ")).toContain(`capped at ${capA} A`);
  });

  it("follows the derated ampacity where that is lower than the cap", () => {
    expect(answered("small-conductor-protection", { awg: "12", ampacityA: 17.5 }).result).toBe(
      17.5,
    );
  });

  it("does not speak about 8 AWG", () => {
    const input = { awg: "8", ampacityA: 50 };
    expect(refused("small-conductor-protection", input).reason).toBe("not-applicable");
  });
});
