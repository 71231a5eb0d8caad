import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  conductorResistanceOhm,
  copperOhmPerKm,
  necOhmPerKft,
  necResistanceOhm,
} from "../../../src/domain/electrical/conductor-resistance.ts";
import { gaugeAreaMm2, gaugeDiameterMm } from "../../../src/domain/electrical/wire-gauge.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

const AREAS = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70];
const CLASS_2 = [12.1, 7.41, 4.61, 3.08, 1.83, 1.15, 0.727, 0.524, 0.387, 0.268];
const CLASS_5 = [13.3, 7.98, 4.95, 3.3, 1.91, 1.21, 0.78, 0.554, 0.386, 0.272];

describe("copper conductors (IEC 60228 Tables 2 and 3, seen in secondary pages)", () => {
  it.each(AREAS.map((area, index) => [area, CLASS_2[index]!, CLASS_5[index]!]))(
    "of %s mm² have at most %s Ω/km (class 2) and %s Ω/km (class 5) at 20 °C",
    (areaMm2, class2, class5) => {
      expect(numberOf(copperOhmPerKm(2, areaMm2))).toBe(class2);
      expect(numberOf(copperOhmPerKm(5, areaMm2))).toBe(class5);
    },
  );

  it.each([
    [1, 18.1, 19.5],
    [95, 0.193, 0.206],
    [120, 0.153, 0.161],
  ])("of %s mm² have at most %s and %s Ω/km (from memory)", (areaMm2, class2, class5) => {
    expect(numberOf(copperOhmPerKm(2, areaMm2))).toBe(class2);
    expect(numberOf(copperOhmPerKm(5, areaMm2))).toBe(class5);
  });

  it("of 2.5 mm² have 8.866 Ω/km at 70 °C by α 0.00393 and 8.892 by ×1.20 (computed)", () => {
    const at70 = (method: string) => numberOf(conductorResistanceOhm(2, 2.5, 1000, 70, method));
    expect(at70("alpha-00393")).toBeCloseTo(8.866, 3);
    expect(at70("iec-60228-kt")).toBeCloseTo(8.892, 3);
    expect(at70("copper-exact")).toBeCloseTo((7.41 * 304.5) / 254.5, 9);
  });

  it.each([
    [5, 1.064],
    [30, 0.962],
    [70, 0.833],
    [100, 0.758],
  ])(
    "measured at %s °C are brought to 20 °C by Kt %s (IEC 60228 Annex, secondary page)",
    (t, kt) => {
      const warm = numberOf(conductorResistanceOhm(2, 10, 1000, t));
      expect(1.83 / warm).toBeCloseTo(kt, 3);
    },
  );

  it("measured at 5 °C differ in the exact form: 1.0626, not 1.064 (from memory)", () => {
    const cold = numberOf(conductorResistanceOhm(2, 10, 1000, 5, "copper-exact"));
    expect(1.83 / cold).toBeCloseTo(1.0626, 4);
  });

  it.each([
    ["4.9 °C", conductorResistanceOhm(2, 10, 10, 4.9), "out-of-range"],
    ["5 °C", conductorResistanceOhm(2, 10, 10, 5), "answered"],
    ["100 °C", conductorResistanceOhm(2, 10, 10, 100), "answered"],
    ["100.1 °C", conductorResistanceOhm(2, 10, 10, 100.1), "out-of-range"],
    ["3 mm²", conductorResistanceOhm(2, 3, 10), "out-of-range"],
    ["150 mm²", conductorResistanceOhm(2, 150, 10), "out-of-range"],
    ["class 1", conductorResistanceOhm(1, 10, 10), "bad-input"],
    ["a length of 0 m", conductorResistanceOhm(2, 10, 0), "bad-input"],
    ["an unknown method", conductorResistanceOhm(2, 10, 10, 20, "guess"), "bad-input"],
  ])("at %s: %s", (_name, figure, expected) => {
    expect(reasonOf(figure)).toBe(expected);
  });

  it("are taken at 20 °C by IEC and at 75 °C by NEC when no temperature is given", () => {
    const metric = { conductorClass: 2, areaMm2: 10, lengthM: 1000 };
    expect(answered("conductor-resistance", metric).result).toBe(1.83);
    const american = { awg: "12", form: "solid", lengthFt: 1000 };
    expect(answered("nec-conductor-resistance", american).result).toBe(1.93);
  });

  it("resist in proportion to their length, and more when warmer", () => {
    const lengths = fc.double({ min: 0.1, max: 2000, noNaN: true });
    const temperatures = fc.double({ min: 5, max: 100, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...AREAS), lengths, temperatures, (area, lengthM, t) => {
        const once = numberOf(conductorResistanceOhm(5, area, lengthM, t));
        const twice = numberOf(conductorResistanceOhm(5, area, 2 * lengthM, t));
        expect(twice / once).toBeCloseTo(2, 9);
        const cold = numberOf(conductorResistanceOhm(5, area, lengthM, 5));
        expect(once).toBeGreaterThanOrEqual(cold);
      }),
    );
  });
});

const GAUGES = ["14", "12", "10", "8", "6", "4", "2", "1/0", "2/0", "4/0"];

describe("copper conductors by gauge (NEC Chapter 9 Table 8)", () => {
  it.each([
    ["14", 3.07, 3.14],
    ["12", 1.93, 1.98],
    ["10", 1.21, 1.24],
    ["8", 0.764, 0.778],
  ])(
    "%s AWG: solid %s (secondary page), stranded %s Ω/kft (from memory)",
    (awg, solid, stranded) => {
      expect(numberOf(necOhmPerKft(awg, "solid"))).toBe(solid);
      expect(numberOf(necOhmPerKft(awg, "stranded"))).toBe(stranded);
    },
  );

  it.each([
    ["6", 0.491],
    ["4", 0.308],
    ["2", 0.194],
    ["1/0", 0.122],
    ["2/0", 0.0967],
    ["4/0", 0.0608],
  ])("%s AWG stranded: %s Ω/kft at 75 °C (seen in a secondary page)", (awg, ohm) => {
    expect(numberOf(necOhmPerKft(awg, "stranded"))).toBe(ohm);
    expect(reasonOf(necOhmPerKft(awg, "solid"))).toBe("not-applicable");
  });

  it.each([
    ["3", 0.245],
    ["1", 0.154],
    ["3/0", 0.0766],
  ])("%s AWG stranded: %s Ω/kft at 75 °C (from memory)", (awg, ohm) => {
    expect(numberOf(necOhmPerKft(awg, "stranded"))).toBe(ohm);
  });

  it("12 AWG solid comes to 1.587 Ω/kft at 20 °C (note 2, seen in a secondary page)", () => {
    expect(numberOf(necResistanceOhm("12", "solid", 1000, 20))).toBeCloseTo(1.587, 3);
  });

  it.each([
    ["−40 °C", necResistanceOhm("12", "solid", 10, -40), "answered"],
    ["−40.1 °C", necResistanceOhm("12", "solid", 10, -40.1), "out-of-range"],
    ["90.1 °C", necResistanceOhm("12", "solid", 10, 90.1), "out-of-range"],
    ["gauge 5", necResistanceOhm("5", "stranded", 10), "bad-input"],
    ["tinned", necResistanceOhm("12", "tinned", 10), "bad-input"],
  ])("at %s: %s", (_name, figure, expected) => {
    expect(reasonOf(figure)).toBe(expected);
  });

  it("refuses a solid 6 AWG with the way out", () => {
    const input = { awg: "6", form: "solid", lengthFt: 10 };
    expect(refused("nec-conductor-resistance", input).problem).toContain("stranded row");
  });
});

describe("wire gauges (ASTM B258, from memory; computed)", () => {
  it("put 12 AWG at 2.0525 mm and 3.309 mm²", () => {
    expect(gaugeDiameterMm(12)).toBeCloseTo(2.0525, 4);
    expect(numberOf(gaugeAreaMm2("12"))).toBeCloseTo(3.309, 3);
  });

  it.each(
    [2.081, 3.309, 5.261, 8.366, 13.3, 21.15, 33.63, 53.48, 67.43, 107.2].map(
      (area, index) => [GAUGES[index]!, area] as const,
    ),
  )("put %s AWG at %s mm²", (awg, area) => {
    expect(numberOf(gaugeAreaMm2(awg)) / area).toBeCloseTo(1, 3);
  });

  it("fix 36 AWG at 0.127 mm and 4/0 at 92 times its square root step: 11.684 mm", () => {
    expect(gaugeDiameterMm(36)).toBe(0.127);
    expect(gaugeDiameterMm(-3)).toBeCloseTo(0.127 * 92, 9);
  });

  it.each([
    ["40", "answered"],
    ["41", "bad-input"],
    ["4/0", "answered"],
    ["5/0", "bad-input"],
    ["0", "bad-input"],
    ["12.5", "bad-input"],
    ["", "bad-input"],
  ])('read "%s" as %s', (awg, expected) => {
    expect(reasonOf(gaugeAreaMm2(awg))).toBe(expected);
  });

  it("lose about half their area every three gauges", () => {
    for (let gauge = 1; gauge <= 37; gauge += 1) {
      const ratio = numberOf(gaugeAreaMm2(`${gauge}`)) / numberOf(gaugeAreaMm2(`${gauge + 3}`));
      expect(ratio).toBeCloseTo(92 ** (6 / 39), 6);
    }
    expect(answered("wire-gauge-area", { awg: "4/0" }).result).toBeCloseTo(107.2, 1);
  });
});
