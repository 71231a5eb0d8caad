import { describe, expect, it } from "vitest";
import { diagnoseCan } from "../../../src/domain/electrical/can-termination.ts";
import { answered, reasonOf, refused } from "./outcomes.ts";

describe("cells in series (arithmetic)", () => {
  it("16 × 3.30 V are 52.8 V", () => {
    expect(answered("series-open-circuit-voltage", { cells: 16, cellV: 3.3 }).result).toBe(52.8);
  });

  it.each([
    [52.3, true],
    [52.29, false],
    [53.3, true],
    [53.31, false],
    [-52.8, false],
  ])("read as %s V with 0.5 V allowed pass: %s", (measuredV, passes) => {
    const pack = { cells: 16, cellV: 3.3, measuredV, allowedDifferenceV: 0.5 };
    expect(answered("series-open-circuit-voltage", pack).passes).toBe(passes);
  });

  it("are not judged without the difference the maker allows", () => {
    const pack = { cells: 16, cellV: 3.3, measuredV: 52.8 };
    expect(refused("series-open-circuit-voltage", pack).problem).toContain("allowedDifferenceV");
  });
});

describe("energy of a bank (arithmetic)", () => {
  it("of 51.2 V × 100 Ah is 5.12 kWh, and of four such packs 20.48 kWh", () => {
    expect(answered("pack-energy", { nominalV: 51.2, capacityAh: 100 }).result).toBe(5.12);
    expect(answered("pack-energy", { nominalV: 51.2, capacityAh: 100, packs: 4 }).result).toBe(
      20.48,
    );
  });
});

describe("DC polarity (IEC 60364-6 6.4.3.6, from memory; common practice, no source)", () => {
  it.each([
    [52.4, true, "Polarity is right"],
    [48, true, "Polarity is right"],
    [58.4, true, "Polarity is right"],
    [47.9, false, "not proven"],
    [0, false, "not proven"],
    [-0.3, false, "not proven"],
    [-47.9, false, "not proven"],
    [-48, false, "Reversed polarity"],
    [-52.4, false, "Reversed polarity"],
    [58.5, false, "Too much voltage"],
  ])("reading %s V passes: %s, %s", (measuredV, passes, words) => {
    const answer = answered("dc-polarity", { measuredV, lowestV: 48, highestV: 58.4 });
    expect(answer.passes).toBe(passes);
    expect(answer.notes.join(" ")).toContain(words);
  });

  it("may be given a single voltage as both limits", () => {
    const exact = { measuredV: 52, lowestV: 52, highestV: 52 };
    expect(answered("dc-polarity", exact).passes).toBe(true);
  });

  it("is refused when the maker's limits are swapped", () => {
    const swapped = { measuredV: 52, lowestV: 58.4, highestV: 48 };
    expect(refused("dc-polarity", swapped).reason).toBe("bad-input");
  });
});

describe("packs before paralleling (the maker's figure; common practice, no source)", () => {
  it.each([
    [[52.8, 52.6], 0.2, true],
    [[52.8, 52.59], 0.2, false],
    [[52.8, 52.8, 52.8], 0, true],
    [[52.6, 52.8, 52.7], 0.19, false],
  ])("of %s V with %s V allowed pass: %s", (packsV, allowedDifferenceV, passes) => {
    const input = { packsV, allowedDifferenceV };
    expect(answered("parallel-pack-difference", input).passes).toBe(passes);
  });

  it("are not judged without the maker's figure", () => {
    expect(() => answered("parallel-pack-difference", { packsV: [52.8, 52.6] })).toThrow();
  });

  it.each([
    [0.1, true],
    [-0.1, true],
    [-0.101, false],
  ])("once closed may drop 0.1 V; %s V passes: %s", (measuredV, passes) => {
    expect(answered("closed-contact-drop", { measuredV, allowedV: 0.1 }).passes).toBe(passes);
  });
});

describe("CAN termination (ISO 11898-2, from memory)", () => {
  it.each([
    [60, 2, "as it should be"],
    [120, 1, "one is missing"],
    [40, 3, "one too many"],
    [30, 4, "two too many"],
    [50, 2, "as it should be"],
    [65, 2, "as it should be"],
    [100, 1, "one is missing"],
    [130, 1, "one is missing"],
    [49.9, null, "Between the values"],
    [65.1, null, "Between the values"],
    [99.9, null, "Between the values"],
    [130.1, null, "No terminator"],
    [20_000, null, "No terminator"],
    [24.9, null, "Nearly a short"],
    [0, null, "Nearly a short"],
  ])("reading %s Ω means %s terminators: %s", (readingOhm, terminators, words) => {
    const diagnosis = diagnoseCan(readingOhm);
    expect(diagnosis).toMatchObject({ ok: true, terminators });
    expect(diagnosis.ok ? diagnosis.finding : "").toContain(words);
    const answer = answered("can-termination", { measuredOhm: readingOhm });
    expect(answer.passes).toBe(terminators === 2);
    expect(answer.result).toBe(60);
  });

  it("refuses a negative resistance", () => {
    expect(reasonOf(diagnoseCan(-1))).toBe("bad-input");
  });
});
