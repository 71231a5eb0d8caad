import { describe, expect, test } from "vitest";
import { compareDebianPart } from "../../../src/domain/firmware/debian-level.ts";
import {
  compareLevels,
  type FirmwareScheme,
  LEVEL_LENGTH_MAX,
  parseLevel,
  suggestScheme,
} from "../../../src/domain/firmware/levels.ts";
import { expectAscending } from "./expect-ascending.ts";

describe("dotted numbers (common practice, no source)", () => {
  test("numbers order as whole numbers from the left", () => {
    expectAscending("dotted", [
      "0",
      "1",
      "1.0.1",
      "1.2",
      "1.9",
      "V1.10",
      "v1.10.0.1",
      "2.0.0.65536",
    ]);
  });

  test.each([
    ["1.2", "1.2.0.0"],
    ["v1.2", "1.2"],
    ["1.02", "1.2"],
  ])("%s and %s are one level", (a, b) => {
    expect(compareLevels("dotted", a, b)).toEqual({ ok: true, order: 0 });
  });

  test.each([
    "",
    "v",
    "1.",
    ".1",
    "1..2",
    "1.2.3.4.5",
    "1.2a",
    "1.2-rc1",
    "vv1",
    "-1",
    "1,2",
    "١.٢",
  ])("%j is refused", (text) => {
    expect(parseLevel("dotted", text)).toMatchObject({ ok: false });
  });
});

describe("the Debian Policy 5.6.12 fallback", () => {
  test("the policy's own list of parts sorts as printed: ~~, ~~a, ~, nothing, a", () => {
    const parts = ["~~", "~~a", "~", "", "a"];
    for (const [i, a] of parts.entries()) {
      for (const [j, b] of parts.entries()) {
        expect([a, b, compareDebianPart(a, b)]).toEqual([a, b, Math.sign(i - j)]);
      }
    }
  });

  test("levels order as `dpkg --compare-versions` 1.21 orders them", () => {
    expectAscending("debian", [
      ...["1.0~~", "1.0~~a", "1.0~", "1.0~rc1", "1.0", "1.0-1~beta", "1.0-1", "1.0a", "1.0+"],
      ...["1.0+b1", "1.0.0", "1.0.1-2-3", "1.9", "1.10", "2.1B-4", "2.1b-4", "1:0.9"],
    ]);
  });

  test.each([
    ["1.0", "1.0-0"],
    ["1.0", "1.00"],
    ["1.0", "0:1.0"],
    ["2.1b-04", "2.1b-4"],
  ])("%s and %s are equal, as dpkg 1.21 says", (a, b) => {
    expect(compareLevels("debian", a, b)).toEqual({ ok: true, order: 0 });
  });

  test.each([
    ["latest", "at least one digit"],
    ["", "letters, digits"],
    ["1.0 beta", "letters, digits"],
    ["1.0_2", "letters, digits"],
    ["a:1.0", "before the colon"],
    [":1.0", "before the colon"],
    ["1.0-", "follows the last hyphen"],
    ["1:1.0-2:3", "no colon"],
    ["-1", "at least one digit"],
  ])("%j is refused, saying why", (text, why) => {
    const parsed = parseLevel("debian", text);
    expect(parsed.ok ? "" : parsed.problem).toContain(why);
  });
});

describe("any scheme", () => {
  test(`a level has at most ${LEVEL_LENGTH_MAX} characters`, () => {
    const longest = `1.0.0+${"a".repeat(LEVEL_LENGTH_MAX - 6)}`;
    expect(parseLevel("semver", longest).ok).toBe(true);
    expect(parseLevel("semver", `${longest}a`).ok).toBe(false);
  });

  test.each<[readonly string[], FirmwareScheme | undefined]>([
    [["1.0.0", "1.1.0-rc.1"], "semver"],
    [["1.0.0", "1.1"], "dotted"],
    [["v1.0.0"], "dotted"],
    [["1.0.0", "1.1b"], "debian"],
    [["1.0.0", "latest"], undefined],
    [[], undefined],
  ])("for %j the suggested scheme is %s", (levels, scheme) => {
    expect(suggestScheme(levels)).toBe(scheme);
  });
});
