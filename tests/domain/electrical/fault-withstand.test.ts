import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  adiabaticMinMm2,
  nextStandardAreaMm2,
  withstandRow,
} from "../../../src/domain/electrical/fault-withstand.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

describe("k (IEC 60364-4-43 Table 43A, IEC 60364-5-54 Annex A, from memory)", () => {
  it.each([
    ["copper", "pvc", "core-in-cable", 115],
    ["copper", "xlpe", "core-in-cable", 143],
    ["copper", "pvc", "separate", 143],
    ["copper", "xlpe", "separate", 176],
    ["aluminium", "pvc", "core-in-cable", 76],
    ["aluminium", "xlpe", "core-in-cable", 94],
    ["aluminium", "pvc", "separate", 95],
    ["aluminium", "xlpe", "separate", 116],
  ])("of %s, %s, %s is %s", (material, insulation, role, k) => {
    expect(withstandRow(material, insulation, role)).toMatchObject({ ok: true, row: { k } });
  });

  it("of 143 stands for two different conductors, told apart by role and insulation", () => {
    const xlpe = withstandRow("copper", "xlpe", "core-in-cable");
    const pvc = withstandRow("copper", "pvc", "separate");
    expect(xlpe).toMatchObject({ row: { k: 143, initialC: 90, finalC: 250 } });
    expect(pvc).toMatchObject({ row: { k: 143, initialC: 30, finalC: 160 } });
  });
});

describe("least area for a fault (IEC 60364-5-54 543.1.2, computed)", () => {
  it.each([
    [1000, 0.1, "pvc", 2.75, 4],
    [1000, 0.1, "xlpe", 2.211, 2.5],
    [230 / 0.8, 0.4, "pvc", 1.581, 2.5],
  ])(
    "at %s A for %s s, %s core, is %s mm², so %s mm²",
    (amperes, s, insulation, area, standard) => {
      const least = numberOf(adiabaticMinMm2(amperes, s, "copper", insulation, "core-in-cable"));
      expect(least).toBeCloseTo(area, 3);
      expect(nextStandardAreaMm2(least)).toBe(standard);
    },
  );

  it.each([
    [5, "answered"],
    [5.01, "not-applicable"],
  ])("for a fault of %s s is %s", (durationS, expected) => {
    const figure = adiabaticMinMm2(1000, durationS, "copper", "pvc", "core-in-cable");
    expect(reasonOf(figure)).toBe(expected);
  });

  it.each([
    [34_500, "answered"],
    [34_501, "out-of-range"],
  ])("at %s A for 1 s is %s: k 115 holds up to 300 mm²", (amperes, expected) => {
    const figure = adiabaticMinMm2(amperes, 1, "copper", "pvc", "core-in-cable");
    expect(reasonOf(figure)).toBe(expected);
  });

  it.each([
    ["steel", "pvc", "separate"],
    ["copper", "rubber", "separate"],
    ["copper", "pvc", "bare"],
  ])("is refused for %s, %s, %s", (material, insulation, role) => {
    expect(reasonOf(adiabaticMinMm2(1000, 0.1, material, insulation, role))).toBe("bad-input");
  });

  it.each([
    [2.75, true],
    [2.749, false],
  ])("lets %s mm² stand 1 kA for 0.1 s: %s", (areaMm2, passes) => {
    const fault = {
      faultCurrentA: 1000,
      durationS: 0.1,
      material: "copper",
      insulation: "pvc",
      role: "core-in-cable",
    };
    expect(answered("adiabatic-area", { ...fault, areaMm2 }).passes).toBe(passes);
    const short = answered("adiabatic-area", { ...fault, durationS: 0.09 });
    expect(short.notes.join(" ")).toContain("let-through");
    expect(answered("adiabatic-area", fault).notes.join(" ")).not.toContain("let-through");
    expect(refused("adiabatic-area", { ...fault, durationS: 6 }).problem).toContain("5 s");
  });

  it("takes exactly a standard area for itself and the next for a hair more", () => {
    expect(nextStandardAreaMm2(2.5)).toBe(2.5);
    expect(nextStandardAreaMm2(2.51)).toBe(4);
    expect(nextStandardAreaMm2(300)).toBe(300);
    expect(nextStandardAreaMm2(301)).toBeUndefined();
  });

  it("grows with current and time, and depends on I²t alone", () => {
    const amperes = fc.double({ min: 10, max: 5000, noNaN: true });
    const seconds = fc.double({ min: 0.05, max: 1.25, noNaN: true });
    fc.assert(
      fc.property(amperes, seconds, (current, time) => {
        const at = (a: number, s: number) =>
          numberOf(adiabaticMinMm2(a, s, "copper", "xlpe", "separate"));
        const least = at(current, time);
        expect(at(current * 1.1, time)).toBeGreaterThan(least);
        expect(at(current, time * 1.1)).toBeGreaterThan(least);
        expect(at(current / 2, time * 4) / least).toBeCloseTo(1, 9);
      }),
    );
  });
});
