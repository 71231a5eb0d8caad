import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { maxBondOhm } from "../../../src/domain/electrical/bonding.ts";
import { ringFinalOhm } from "../../../src/domain/electrical/resistance-networks.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

describe("R1+R2 (IEC 60228 values by the BS 7671 method, computed)", () => {
  const circuit = { lineAreaMm2: 2.5, protectiveAreaMm2: 1.5, lengthM: 20 };

  it.each([
    [20, 0.3902],
    [70, 0.4682],
  ])("of 20 m of 2.5/1.5 mm² at %s °C is %s Ω", (temperatureC, ohm) => {
    expect(answered("r1-plus-r2", { ...circuit, temperatureC }).result).toBeCloseTo(ohm, 4);
  });

  it("shows the cold value on the way to the hot one", () => {
    const steps = answered("r1-plus-r2", { ...circuit, temperatureC: 70 }).steps;
    expect(steps.map((step) => step.result)).toEqual([7.41, 12.1, 0.3902, 0.46824]);
  });

  it("is refused for an area the table does not hold, with those it does", () => {
    const refusal = refused("r1-plus-r2", { ...circuit, lineAreaMm2: 3, temperatureC: 20 });
    expect(refusal.reason).toBe("out-of-range");
    expect(refusal.problem).toContain("2.5, 4, 6");
  });
});

describe("ring final circuit (IET GN3, from memory)", () => {
  it("with r1 0.60 and r2 1.00 reads 0.40 Ω at the sockets", () => {
    expect(numberOf(ringFinalOhm(0.6, 1))).toBe(0.4);
    expect(answered("ring-final-continuity", { lineEndsOhm: 0.6, earthEndsOhm: 1 }).result).toBe(
      0.4,
    );
  });

  it("reads half of what its halves in parallel would from the far side", () => {
    // Half the ring each way, in parallel: (r/2)·(r/2)/r = r/4 for each conductor.
    const ends = fc.double({ min: 0.01, max: 5, noNaN: true });
    fc.assert(
      fc.property(ends, ends, (r1, r2) => {
        const quarter = (r: number) => 1 / (2 / r + 2 / r);
        expect(numberOf(ringFinalOhm(r1, r2))).toBeCloseTo(quarter(r1) + quarter(r2), 9);
      }),
    );
  });
});

describe("main bonding (IET GN3 9th edition p. 61, as reported)", () => {
  it("of 25 m of 10 mm² is expected at 0.04575 Ω, printed 0.0458", () => {
    expect(answered("main-bonding", { areaMm2: 10, lengthM: 25 }).result).toBe(0.04575);
  });

  it.each([
    [0.05, true],
    [0.06, true],
    [0.1, true],
    [0.101, false],
  ])("read as %s Ω passes: %s; 0.05 is not the limit", (measuredOhm, passes) => {
    const answer = answered("main-bonding", { areaMm2: 10, lengthM: 25, measuredOhm });
    expect(answer.passes).toBe(passes);
  });

  it.each([
    ["54.6 m, expected at 0.09992 Ω, is judged", 54.6, true],
    ["54.7 m, expected at 0.1001 Ω, is not judged", 54.7, undefined],
  ])("of %s", (_name, lengthM, passes) => {
    const answer = answered("main-bonding", { areaMm2: 10, lengthM, measuredOhm: 0.1 });
    expect(answer.passes).toBe(passes);
  });
});

describe("earth bond", () => {
  it.each([
    ["main-bonding", 0.1, true],
    ["main-bonding", 0.101, false],
    ["equipment-bond", 0.1, true],
    ["equipment-bond", 0.101, false],
    ["equipotential-au-nz", 0.5, true],
    ["equipotential-au-nz", 0.501, false],
  ])(
    "by %s, read as %s Ω, passes: %s (GN3; IEC 60950-1; AS/NZS 3000 from memory)",
    (basis, measuredOhm, passes) => {
      expect(answered("earth-bond", { basis, measuredOhm }).passes).toBe(passes);
    },
  );

  it("is held to 0.05 Ω only where the job's documents state it", () => {
    const stated = { basis: "stated-by-job", statedMaxOhm: 0.05 };
    expect(answered("earth-bond", { ...stated, measuredOhm: 0.05 }).passes).toBe(true);
    expect(answered("earth-bond", { ...stated, measuredOhm: 0.051 }).passes).toBe(false);
  });

  it("is refused when the stated figure is missing, or stands beside another basis", () => {
    const missing = { basis: "stated-by-job", measuredOhm: 0.05 };
    expect(refused("earth-bond", missing).reason).toBe("bad-input");
    const both = { basis: "main-bonding", statedMaxOhm: 0.05, measuredOhm: 0.05 };
    expect(refused("earth-bond", both).reason).toBe("bad-input");
  });
});

describe("supplementary bonding (BS 7671 415.2.2)", () => {
  it("for a device that trips at 145 A may have 0.345 Ω; a page prints 0.34", () => {
    expect(numberOf(maxBondOhm(145))).toBeCloseTo(0.345, 3);
    expect(Math.floor(numberOf(maxBondOhm(145)) * 100) / 100).toBe(0.34);
  });

  it("in DC allows 120 V / Ia (from memory)", () => {
    expect(numberOf(maxBondOhm(100, "dc"))).toBe(1.2);
    expect(reasonOf(maxBondOhm(100, "rf"))).toBe("bad-input");
    expect(reasonOf(maxBondOhm(0))).toBe("bad-input");
  });

  it.each([
    [0.5, true],
    [0.5001, false],
  ])("of %s Ω with Ia 100 A passes: %s", (measuredOhm, passes) => {
    expect(answered("supplementary-bonding", { tripA: 100, measuredOhm }).passes).toBe(passes);
  });

  it("lets no more than 50 V appear at the tripping current", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.03, max: 10_000, noNaN: true }), (tripA) => {
        expect(numberOf(maxBondOhm(tripA)) * tripA).toBeCloseTo(50, 6);
      }),
    );
  });
});
