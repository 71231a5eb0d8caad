import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  insulationMinMohm,
  insulationTestV,
  pvInsulationRow,
} from "../../../src/domain/electrical/insulation.ts";
import { parallelOhm } from "../../../src/domain/electrical/resistance-networks.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

describe("insulation of circuits (IEC 60364-6 Table 6.1, BS 7671 Table 64, secondary page)", () => {
  it.each([
    ["selv-pelv", 50, 250, 0.5],
    ["ordinary", 50, 500, 1],
    ["ordinary", 230, 500, 1],
    ["ordinary", 500, 500, 1],
    ["ordinary", 500.1, 1000, 1],
    ["ordinary", 1000, 1000, 1],
  ])(
    "%s at %s V is tested at %s V DC and reads at least %s MΩ",
    (circuit, nominalV, testV, min) => {
      expect(numberOf(insulationTestV(circuit, nominalV))).toBe(testV);
      expect(numberOf(insulationMinMohm(circuit, nominalV))).toBe(min);
    },
  );

  it.each([
    ["ac", 50, "answered"],
    ["ac", 50.1, "not-applicable"],
    ["dc", 120, "answered"],
    ["dc", 120.1, "not-applicable"],
  ])(
    "of SELV in %s at %s V is %s (limits of extra-low voltage, from memory)",
    (kind, v, result) => {
      expect(reasonOf(insulationMinMohm("selv-pelv", v, kind))).toBe(result);
    },
  );

  it("is refused above 1000 V AC but not at 1500 V DC", () => {
    expect(reasonOf(insulationMinMohm("ordinary", 1000.1))).toBe("out-of-range");
    expect(numberOf(insulationMinMohm("ordinary", 1500, "dc"))).toBe(1);
    expect(reasonOf(insulationMinMohm("felv", 48))).toBe("bad-input");
  });

  it.each([
    ["ordinary", 230, 0.99, false],
    ["ordinary", 230, 1, true],
    ["selv-pelv", 48, 0.49, false],
    ["selv-pelv", 48, 0.5, true],
  ])("of %s at %s V, read as %s MΩ, passes: %s", (circuit, nominalV, measuredMohm, passes) => {
    const input = { circuit, nominalV, measuredMohm };
    expect(answered("insulation-resistance", input).passes).toBe(passes);
  });

  it("is tested at 250 V and still held to 1 MΩ with SPDs fitted (6.4.3.3, memory)", () => {
    const input = { circuit: "ordinary", nominalV: 230, surgeProtectionFitted: true };
    const answer = answered("insulation-resistance", input);
    expect(answer.steps.map((step) => step.result)).toEqual([250, 1]);
    expect(answer.source).toContain("6.4.3.3");
    const high = { ...input, nominalV: 690 };
    expect(refused("insulation-resistance", high).reason).toBe("not-applicable");
  });

  it("cites the table of the standard asked for", () => {
    const input = { circuit: "ordinary", nominalV: 230 };
    expect(answered("insulation-resistance", { ...input, standard: "BS" }).source).toContain("64");
    expect(answered("insulation-resistance", input).source).toContain("IEC 60364-6");
  });
});

describe("insulation of PV arrays (IEC 62446-1 6.7, from memory; at 1.25 × Voc)", () => {
  it.each([
    [95.9, 250, 0.5],
    [96, 500, 1],
    [400, 500, 1],
    [400.1, 1000, 1],
    [800, 1000, 1],
    [800.1, 1500, 1],
    [1200, 1500, 1],
  ])("with Voc %s V is tested at %s V and reads at least %s MΩ", (voc, testV, minMohm) => {
    const found = pvInsulationRow(voc);
    expect(found).toMatchObject({ ok: true, row: { testV, minMohm } });
  });

  it("is refused above a system voltage of 1500 V and above 10 kWp", () => {
    expect(reasonOf(pvInsulationRow(1200.1))).toBe("out-of-range");
    const large = { vocStcV: 594, arrayKwp: 10.1 };
    expect(refused("pv-array-insulation", large).problem).toContain("sections");
    expect(answered("pv-array-insulation", { vocStcV: 594, arrayKwp: 10 }).result).toBe(1);
  });

  it.each([
    [0.99, false],
    [1, true],
  ])("read as %s MΩ passes: %s", (measuredMohm, passes) => {
    const input = { vocStcV: 594, arrayKwp: 5, measuredMohm };
    expect(answered("pv-array-insulation", input).passes).toBe(passes);
  });
});

describe("circuits in parallel (1 / ΣG, computed)", () => {
  it("of 2, 5 and 10 MΩ read 1.25 MΩ together", () => {
    expect(numberOf(parallelOhm([2, 5, 10]))).toBe(1.25);
  });

  it("read nothing when one of them is a dead short", () => {
    expect(numberOf(parallelOhm([2, 0, 10]))).toBe(0);
  });

  it("are refused when there are none or one is negative", () => {
    expect(reasonOf(parallelOhm([]))).toBe("bad-input");
    expect(reasonOf(parallelOhm([2, -1]))).toBe("bad-input");
  });

  it.each([
    [1.25, true],
    [1.26, false],
  ])("hold against a least value of %s MΩ: %s", (minMohm, passes) => {
    const input = { circuitsMohm: [2, 5, 10], minMohm };
    expect(answered("insulation-in-parallel", input).passes).toBe(passes);
  });

  const branches = fc.array(fc.double({ min: 0.001, max: 9999, noNaN: true }), {
    minLength: 1,
    maxLength: 8,
  });

  it("never read above the least of them, nor below the least shared out", () => {
    fc.assert(
      fc.property(branches, (list) => {
        const together = numberOf(parallelOhm(list));
        const least = Math.min(...list);
        expect(together).toBeLessThanOrEqual(least * (1 + 1e-9));
        expect(together).toBeGreaterThanOrEqual((least / list.length) * (1 - 1e-9));
      }),
    );
  });

  it("read the same in any order, and no higher with one more", () => {
    fc.assert(
      fc.property(branches, fc.double({ min: 0.001, max: 9999, noNaN: true }), (list, more) => {
        const together = numberOf(parallelOhm(list));
        expect(numberOf(parallelOhm([...list].reverse()))).toBeCloseTo(together, 6);
        expect(numberOf(parallelOhm([...list, more]))).toBeLessThanOrEqual(together);
      }),
    );
  });
});
