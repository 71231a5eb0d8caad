import fc from "fast-check";
import semver from "semver";
import { describe, expect, test } from "vitest";
import { compareLevels, parseLevel } from "../../../src/domain/firmware/levels.ts";
import { expectAscending } from "./expect-ascending.ts";
import { semverText } from "./level-arbitraries.ts";

describe("SemVer 2.0.0", () => {
  test("clause 11's own lists come out in their order", () => {
    expectAscending("semver", ["1.0.0", "2.0.0", "2.1.0", "2.1.1"]);
    expectAscending("semver", [
      "1.0.0-alpha",
      "1.0.0-alpha.1",
      "1.0.0-alpha.beta",
      "1.0.0-beta",
      "1.0.0-beta.2",
      "1.0.0-beta.11",
      "1.0.0-rc.1",
      "1.0.0",
    ]);
  });

  test("build metadata never orders (clause 10)", () => {
    for (const [a, b] of [
      ["1.0.0", "1.0.0+20130313144700"],
      ["1.0.0+1", "1.0.0+2"],
      ["1.0.0-beta+exp.sha.5114f85", "1.0.0-beta"],
    ] as const) {
      expect(compareLevels("semver", a, b)).toEqual({ ok: true, order: 0 });
    }
  });

  test.each([
    "0.0.0",
    "10.20.30",
    "1.0.0-0.3.7",
    "1.0.0-x.7.z.92",
    "1.0.0-x-y-z.--",
    "1.0.0--",
    "1.0.0-alpha+001",
    "1.0.0+21AF26D3---117B344092BD",
    "1.0.0-0A.is.legal",
    "99999999999999999999999.999999999999999999.99999999999999999",
  ])("%s is a level (examples of clauses 9 and 10 and of the published pattern)", (text) => {
    expect(parseLevel("semver", text).ok).toBe(true);
  });

  test.each([
    ["v1.2.3", "no leading v"],
    ["01.1.1", "no leading zeros"],
    ["1.01.1", "no leading zeros"],
    ["1.1.01", "no leading zeros"],
    ["1", "three numbers"],
    ["1.2", "three numbers"],
    ["1.2.3.4", "clauses 2, 9, 10"],
    ["1.2.3-0123", "clauses 2, 9, 10"],
    ["1.2.3-", "clauses 2, 9, 10"],
    ["1.0.0-alpha..1", "clauses 2, 9, 10"],
    ["1.0.0+", "clauses 2, 9, 10"],
    ["1.2.3+a+b", "clauses 2, 9, 10"],
    ["1.0.0-alpha_beta", "clauses 2, 9, 10"],
    [" 1.2.3", "clauses 2, 9, 10"],
    ["1.2.3\n", "clauses 2, 9, 10"],
    ["", "clauses 2, 9, 10"],
  ])("%j is refused, saying why (clauses 2, 9, 10)", (text, why) => {
    const parsed = parseLevel("semver", text);
    expect(parsed.ok ? "" : parsed.problem).toContain(why);
    expect(parsed.ok ? "" : parsed.problem).toContain(`"${text}"`);
    expect(compareLevels("semver", text, "1.2.3").ok).toBe(false);
    expect(compareLevels("semver", "1.2.3", text).ok).toBe(false);
  });

  test("100,000 random pairs order as the semver package orders them", () => {
    fc.assert(
      fc.property(semverText, semverText, (a, b) => {
        const ours = compareLevels("semver", a, b);
        return ours.ok && ours.order === semver.compare(a, b);
      }),
      { numRuns: 100_000 },
    );
  });
});
