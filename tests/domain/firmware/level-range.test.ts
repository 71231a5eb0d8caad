import { describe, expect, test } from "vitest";
import { inLevelRange, rangeWords } from "../../../src/domain/firmware/level-range.ts";

describe("ranges (order: SemVer 2.0.0 clause 11)", () => {
  test.each([
    ["1.9.9", false],
    ["2.0.0-rc.1", false],
    ["2.0.0", true],
    ["2.9.9", true],
    ["3.0.0-rc.1", true],
    ["3.0.0", false],
  ])("%s lies between 2.0.0 and below 3.0.0: %s", (level, inside) => {
    const range = { min: "2.0.0", below: "3.0.0" };
    expect(inLevelRange("semver", level, range)).toEqual({ ok: true, inside });
  });

  test.each([
    [{}, "any level"],
    [{ min: "2.0.0" }, "2.0.0 or above"],
    [{ below: "3.0.0" }, "below 3.0.0"],
    [{ min: "2.0.0", below: "3.0.0" }, "2.0.0 or above and below 3.0.0"],
  ])("%o reads %s", (range, words) => {
    expect(rangeWords(range)).toBe(words);
  });
});
