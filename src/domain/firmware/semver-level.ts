// Requirement: levels of makers that follow Semantic Versioning order by it. Source: SemVer 2.0.0
// (semver.org) clause 2 (three whole numbers without leading zeros), 9 (prerelease), 10 (build
// metadata, which never orders), 11 (precedence).

/** Build metadata is checked and then dropped, so nothing can order by it. */
export type SemverLevel = {
  core: readonly [major: bigint, minor: bigint, patch: bigint];
  prerelease: readonly string[];
};

const IDENTIFIER = "(?:0|[1-9]\\d*|\\d*[A-Za-z-][0-9A-Za-z-]*)";
const SHAPE = new RegExp(
  "^(0|[1-9]\\d*)\\.(0|[1-9]\\d*)\\.(0|[1-9]\\d*)" +
    `(?:-(${IDENTIFIER}(?:\\.${IDENTIFIER})*))?(?:\\+[0-9A-Za-z-]+(?:\\.[0-9A-Za-z-]+)*)?$`,
);
const DIGITS = /^\d+$/;

/** Reads a SemVer 2.0.0 text; anything else is refused with the clause it breaks. */
export function parseSemver(
  text: string,
): { ok: true; value: SemverLevel } | { ok: false; problem: string } {
  const match = SHAPE.exec(text);
  if (!match) return { ok: false, problem: `"${text}" is no SemVer level: ${reason(text)}.` };
  const [, major = "", minor = "", patch = "", prerelease] = match;
  return {
    ok: true,
    value: {
      core: [BigInt(major), BigInt(minor), BigInt(patch)],
      prerelease: prerelease === undefined ? [] : prerelease.split("."),
    },
  };
}

/** SemVer 2.0.0 clause 11: numbers first, a prerelease below its release, then field by field. */
export function compareSemver(a: SemverLevel, b: SemverLevel): -1 | 0 | 1 {
  for (const part of [0, 1, 2] as const) {
    if (a.core[part] !== b.core[part]) return a.core[part] < b.core[part] ? -1 : 1;
  }
  if (a.prerelease.length === 0 || b.prerelease.length === 0) {
    if (a.prerelease.length === b.prerelease.length) return 0;
    return a.prerelease.length === 0 ? 1 : -1;
  }
  return comparePrerelease(a.prerelease, b.prerelease);
}

function comparePrerelease(a: readonly string[], b: readonly string[]): -1 | 0 | 1 {
  for (const [index, field] of a.entries()) {
    const other = b[index];
    if (other === undefined) return 1;
    const order = compareIdentifier(field, other);
    if (order !== 0) return order;
  }
  return a.length < b.length ? -1 : 0;
}

function compareIdentifier(a: string, b: string): -1 | 0 | 1 {
  if (a === b) return 0;
  const numeric = DIGITS.test(a);
  if (numeric !== DIGITS.test(b)) return numeric ? -1 : 1;
  if (numeric) return BigInt(a) < BigInt(b) ? -1 : 1;
  return a < b ? -1 : 1;
}

function reason(text: string): string {
  if (/^[vV]\d/.test(text)) return "it has no leading v (clause 2)";
  if (/^(?:\d+\.){0,2}0\d/.test(text)) return "its numbers have no leading zeros (clause 2)";
  if (/^\d+(?:\.\d+)?$/.test(text)) return "it has three numbers, as in 1.4.2 (clause 2)";
  return "it reads like 1.4.2, 1.4.2-rc.1 or 1.4.2+build.7 (clauses 2, 9, 10)";
}
