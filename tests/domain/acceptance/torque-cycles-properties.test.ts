// Cycles of a torque tool over random work and random order of receipt.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cyclesBefore } from "../../../src/domain/acceptance/torque-cycles.ts";
import { codes, TOOL, tighten } from "./tightened.ts";

describe("over random work", () => {
  const day = fc.integer({ min: 1, max: 28 }).map((n) => `2026-11-${String(n).padStart(2, "0")}`);
  const someUse = fc.record({
    day,
    cycles: fc.integer({ min: 1, max: 3000 }),
    fromOrder: fc.integer({ min: 0, max: 6 }),
  });

  test("more cycles never turn stale into fit", () => {
    fc.assert(
      fc.property(fc.array(someUse, { maxLength: 8 }), someUse, day, (uses, more, on) => {
        const answer = tighten(3, 8, { takenAt: `${on}T12:00:00Z` });
        const [before] = codes([answer], { uses });
        const [after] = codes([answer], { uses: [...uses, more] });
        if (before !== "passed") expect(after).toBe(before);
      }),
      { numRuns: 500 },
    );
  });

  test("the count is the sum of what was known, done by then and since the calibration", () => {
    fc.assert(
      fc.property(fc.array(someUse, { maxLength: 12 }), day, day, (uses, on, calibrated) => {
        const calibrations = [{ on: calibrated, due: "2027-11-01", passed: true }];
        const moment = { takenAt: `${on}T12:00:00Z`, order: 3 };
        let naive = 0;
        for (const one of uses) {
          const since = calibrated <= on ? one.day >= calibrated : true;
          if (since && one.day <= on && one.fromOrder <= 3) naive += one.cycles;
        }
        const tool = { ...TOOL, calibrations, uses };
        expect(cyclesBefore(tool, moment, "Europe/London")).toBe(naive);
      }),
      { numRuns: 500 },
    );
  });
});
