import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pvMaxCurrentA, stringIscA, stringVocV } from "../../../src/domain/electrical/pv-string.ts";
import { answered, numberOf, reasonOf } from "./outcomes.ts";

describe("expected string values (IEC 60891 linear, computed)", () => {
  it("of 12 modules of 49.5 V, −0.27 %/K, at 45 °C are 561.92 V, ±5 % 533.83 to 590.02 V", () => {
    const input = { moduleVocV: 49.5, modules: 12, betaPercentPerK: -0.27, cellC: 45 };
    const answer = answered("pv-voc-expected", input);
    expect(answer.result).toBeCloseTo(561.92, 2);
    expect(answer.steps[1]?.result).toBeCloseTo(533.83, 2);
    expect(answer.steps[2]?.result).toBeCloseTo(590.02, 2);
  });

  it.each([
    [533.82, false],
    [533.83, true],
    [590.02, true],
    [590.03, false],
    [-561.9, false],
  ])("judge a reading of %s V: %s", (measuredV, passes) => {
    const input = { moduleVocV: 49.5, modules: 12, betaPercentPerK: -0.27, cellC: 45, measuredV };
    expect(answered("pv-voc-expected", input).passes).toBe(passes);
  });

  it("of 13.5 A, +0.05 %/K, at 800 W/m² and 45 °C are 10.908 A", () => {
    expect(numberOf(stringIscA(13.5, 0.05, 800, 45))).toBe(10.908);
  });

  it.each([
    [10.3626, true],
    [10.36, false],
    [11.4534, true],
    [11.46, false],
  ])("judge a reading of %s A: %s", (measuredA, passes) => {
    const input = {
      moduleIscA: 13.5,
      alphaPercentPerK: 0.05,
      irradianceWm2: 800,
      cellC: 45,
      measuredA,
    };
    expect(answered("pv-isc-expected", input).passes).toBe(passes);
  });

  it("are the data-sheet values at 25 °C and 1000 W/m²", () => {
    expect(numberOf(stringVocV(49.5, -0.27, 25, 12))).toBe(594);
    expect(numberOf(stringIscA(13.5, 0.05, 1000, 25))).toBe(13.5);
  });

  it("are refused for too little light, too many modules, or parts of one", () => {
    expect(reasonOf(stringIscA(13.5, 0.05, 49, 25))).toBe("bad-input");
    expect(reasonOf(stringVocV(49.5, -0.27, 25, 201))).toBe("bad-input");
    expect(reasonOf(stringVocV(49.5, -0.27, 25, 1.5))).toBe("bad-input");
  });

  it("fall with temperature for a negative coefficient and add up over modules", () => {
    const temperature = fc.double({ min: -40, max: 80, noNaN: true });
    fc.assert(
      fc.property(temperature, fc.integer({ min: 1, max: 24 }), (cellC, modules) => {
        const volts = numberOf(stringVocV(49.5, -0.27, cellC, modules));
        expect(numberOf(stringVocV(49.5, -0.27, cellC + 1, modules))).toBeLessThan(volts);
        expect(volts / numberOf(stringVocV(49.5, -0.27, cellC, 1))).toBeCloseTo(modules, 9);
      }),
    );
  });
});

describe("comparison of identical strings (IEC 62446-1 6.4, 6.5.2, from memory)", () => {
  it.each([
    [[97.5, 102.5], true],
    [[97.4, 102.5], false],
    [[100, 100, 100], true],
    [[100, 110], false],
  ])("of %s passes: %s", (readings, passes) => {
    expect(answered("pv-string-comparison", { quantity: "Voc", readings }).passes).toBe(passes);
  });

  it("does not depend on the order or the scale of the readings", () => {
    const readings = fc.array(fc.integer({ min: 100, max: 900 }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(readings, (list) => {
        const spread = (values: number[]) =>
          answered("pv-string-comparison", { quantity: "Isc", readings: values }).result;
        const first = spread(list);
        expect(spread([...list].reverse())).toBeCloseTo(first, 9);
        expect(spread(list.map((value) => value / 100))).toBeCloseTo(first, 9);
      }),
    );
  });
});

describe("design currents (NEC 690.8, computed)", () => {
  it("of Isc 13.5 A are 16.875 A and 21.094 A", () => {
    expect(numberOf(pvMaxCurrentA(13.5))).toBe(16.875);
    expect(answered("pv-circuit-current", { moduleIscA: 13.5 }).result).toBeCloseTo(21.094, 3);
  });

  it.each([
    [21.09375, true],
    [21.09, false],
  ])("are carried by a conductor of %s A: %s", (ampacityA, passes) => {
    expect(answered("pv-circuit-current", { moduleIscA: 13.5, ampacityA }).passes).toBe(passes);
  });
});
