import fc from "fast-check";
import semver from "semver";
import { expect, test } from "vitest";
import { KEYED_PRERELEASE_WORDS, levelKey } from "../../../src/domain/firmware/level-key.ts";
import { compareLevels } from "../../../src/domain/firmware/levels.ts";
import { dottedText, semverText } from "./level-arbitraries.ts";

const BIGINT_MAX = 2n ** 63n - 1n;

function orderOf(a: bigint, b: bigint): number {
  return a === b ? 0 : a < b ? -1 : 1;
}

test("SemVer levels that both have keys order by key as the semver package orders them", () => {
  let keyed = 0;
  fc.assert(
    fc.property(semverText, semverText, (a, b) => {
      const [left, right] = [levelKey("semver", a), levelKey("semver", b)];
      if (left === undefined || right === undefined) return true;
      keyed += 1;
      return orderOf(left, right) === semver.compare(a, b);
    }),
    { numRuns: 50_000 },
  );
  expect(keyed).toBeGreaterThan(5_000);
});

test("dotted levels that both have keys order by key as they compare", () => {
  let keyed = 0;
  fc.assert(
    fc.property(dottedText, dottedText, (a, b) => {
      const [left, right] = [levelKey("dotted", a), levelKey("dotted", b)];
      if (left === undefined || right === undefined) return true;
      keyed += 1;
      const compared = compareLevels("dotted", a, b);
      return compared.ok && orderOf(left, right) === compared.order;
    }),
    { numRuns: 50_000 },
  );
  expect(keyed).toBeGreaterThan(5_000);
});

test("every key is a PostgreSQL bigint that is not negative", () => {
  fc.assert(
    fc.property(fc.oneof(semverText, dottedText), (level) =>
      [levelKey("semver", level), levelKey("dotted", level)].every(
        (key) => key === undefined || (key >= 0n && key <= BIGINT_MAX),
      ),
    ),
    { numRuns: 20_000 },
  );
});

test("clause 11's list of SemVer 2.0.0 ascends by key where a level has one", () => {
  const listed = ["alpha", "alpha.1", "alpha.beta", "beta", "beta.2", "beta.11", "rc.1"];
  const keys = [...listed.map((tail) => `1.0.0-${tail}`), "1.0.0"].map((level) =>
    levelKey("semver", level),
  );
  expect(keys).not.toContain(undefined);
  expect(keys).toEqual([...keys].sort((a, b) => orderOf(a ?? 0n, b ?? 0n)));
  expect(new Set(keys).size).toBe(keys.length);
});

test("short prereleases of one release get keys in the semver package's order, none twice", () => {
  const fields = ["0", "1", "5", "255", "256", "RC", "a", "alpha", "rc", "snapshot"];
  const short = fields.flatMap((a) => [a, ...fields.map((b) => `${a}.${b}`)]);
  const lists = [...short, ...short.flatMap((start) => fields.map((end) => `${start}.${end}`))];
  const sorted = [...new Set(lists)].map((tail) => `1.0.0-${tail}`).sort(semver.compare);
  const keys = [...sorted, "1.0.0"].map((level) => levelKey("semver", level));
  const known = keys.filter((key) => key !== undefined);
  expect(known.length).toBeGreaterThan(500);
  for (const [index, key] of known.slice(1).entries()) {
    expect(key).toBeGreaterThan(known[index]!);
  }
});

test("the known prerelease words stand in ASCII order and fit their four bits", () => {
  const byAscii = [...KEYED_PRERELEASE_WORDS].sort((a, b) => (a < b ? -1 : 1));
  expect([...KEYED_PRERELEASE_WORDS]).toEqual(byAscii);
  expect(KEYED_PRERELEASE_WORDS.length).toBeLessThanOrEqual(16);
});

test("equal levels share a key", () => {
  expect(levelKey("semver", "1.2.3+9")).toBe(levelKey("semver", "1.2.3"));
  expect(levelKey("dotted", "v1.2")).toBe(levelKey("dotted", "1.2.0.0"));
});

test.each([
  ["dotted", "268435455", true],
  ["dotted", "268435456", false],
  ["dotted", "65535.65535.65535", true],
  ["dotted", "65535.65535.65535.0", true],
  ["dotted", "65535.65535.65535.255", false],
  ["dotted", "20240315.1.2", true],
  ["semver", "65535.65535.65535", true],
  ["semver", "65536.65535.65535", false],
  ["semver", "1.4.0-rc.1", true],
  ["semver", "1.4.0-rc1", false],
  ["semver", "1.4.0-gamma", false],
  ["semver", "1.4.0-rc.1.2.3", false],
  ["semver", "v1.4.0", false],
  ["dotted", "1.4-rc1", false],
  ["debian", "1.0", false],
] as const)("%s level %s has a key: %s", (scheme, level, expected) => {
  expect(levelKey(scheme, level) !== undefined).toBe(expected);
});
