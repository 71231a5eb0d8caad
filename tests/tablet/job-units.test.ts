// The unit a reading is typed in at first, by the firm's system, and the limit told in it. Factors:
// NIST SP 811 (2008) Appendix B.8: 1 in = 25.4 mm, 1 lbf·in = 0.1129848 N·m, intervals of
// temperature 1 °C = 1.8 °F; from memory.
import { describe, expect, test } from "vitest";
import type { Interval } from "../../src/domain/acceptance/interval.ts";
import { findItem, readJob } from "../../src/tablet/job/job-state.ts";
import { firstUnit, neededHere, typedUnit } from "../../src/tablet/job/typed-unit.ts";
import { neededWords } from "../../src/tablet/job/wanted.ts";
import { packetOf } from "./support/job-packet.ts";

const METRIC = { unitSystem: "metric" } as const;
const US = { unitSystem: "us" } as const;

describe("the unit that is typed in at first", () => {
  test.each([
    ["mm", "in"],
    ["m", "ft"],
    ["N·m", "lbf·in"],
    ["°C", "°F"],
    ["kPa", "psi"],
    ["kg", "lb"],
    // Customary already, or the same in both systems: as the plan says, to the size.
    ["lbf·ft", "lbf·ft"],
    ["mV", "mV"],
    ["MΩ", "MΩ"],
    ["mm²", "mm²"],
    ["no unit of ours", "no unit of ours"],
  ])("of %s is %s for a firm on US customary units, and the plan's for the others", (unit, us) => {
    expect(firstUnit(unit, US)).toBe(us);
    expect(firstUnit(unit, METRIC)).toBe(unit);
  });

  test("is the plan's for a packet taken along before it told the firm's system", () => {
    expect(firstUnit("mm", {} as typeof US)).toBe("mm");
  });

  test.each([
    ["nothing typed", {}, "in"],
    ["a unit that was chosen", { unit: "m" }, "m"],
    ["a number typed with its unit", { number: "2", unit: "in" }, "in"],
    ["a number typed before its unit was noted", { number: "62" }, "mm"],
  ])("with %s stands at %o, in %s", (_what, draft, unit) => {
    expect(typedUnit("mm", draft, US)).toBe(unit);
  });
});

describe("the limit", () => {
  const above: Interval = { low: 50, lowIncluded: false, highIncluded: false };
  const around = (value: number, tolerance: number | string): Interval => ({
    ...{ low: value - 1, high: value + 1, lowIncluded: true, highIncluded: true },
    nominal: { value, tolerance },
  });

  test.each<[string, Interval, string]>([
    ["mm", above, "more than 1.9685 in"],
    ["N·m", around(12, "4 %"), "106.21 lbf·in ± 4 %"],
    ["°C", around(25, 5), "77 °F ± 9 °F"],
  ])("in %s is told in the customary unit too", (unit, interval, words) => {
    expect(neededHere(interval, unit, US)).toBe(words);
    expect(neededHere(interval, unit, METRIC)).toBeUndefined();
  });

  test("in volts is told once", () => {
    expect(neededHere(above, "V", US)).toBeUndefined();
  });

  test.each([
    ["metric", "more than 50 mm"],
    ["us", "more than 50 mm (rounded: more than 1.9685 in)"],
  ] as const)("of an item for a firm on %s reads %s", (unitSystem, words) => {
    const job = readJob(packetOf({ unitSystem }), [], "2026-03-02T09:30:00Z");
    expect(neededWords(job, findItem(job, "depth", "")!)).toBe(words);
  });
});
