// Requirement: firmware levels order as their maker means them, by SemVer where they follow it,
// else by a documented fallback (product rule). One model has one declared scheme, because an order
// that mixes schemes need not be an order at all. A text that does not fit the declared scheme is
// refused with a sentence and never guessed at.

import { compareDebian, type DebianLevel, parseDebian } from "./debian-level.ts";
import { compareDotted, type DottedLevel, parseDotted } from "./dotted-level.ts";
import { compareSemver, parseSemver, type SemverLevel } from "./semver-level.ts";

/**
 * How a maker writes levels. `semver`: Semantic Versioning 2.0.0. `dotted`: one to four whole
 * numbers with dots, a leading v allowed. `debian`: the fallback for every other scheme, ordered as
 * Debian Policy 5.6.12 orders versions.
 */
export const FIRMWARE_SCHEMES = ["semver", "dotted", "debian"] as const;
export type FirmwareScheme = (typeof FIRMWARE_SCHEMES)[number];

/** Longest level text accepted; no scheme sets a limit, an unlimited text has no use. */
export const LEVEL_LENGTH_MAX = 128;

export type ParsedLevel =
  | { scheme: "semver"; value: SemverLevel }
  | { scheme: "dotted"; value: DottedLevel }
  | { scheme: "debian"; value: DebianLevel };
export type LevelOrder = -1 | 0 | 1;
type Refusal = { ok: false; problem: string };

/**
 * Reads one level under its model's scheme.
 * Source: SemVer 2.0.0 clauses 2, 9, 10; Debian Policy 5.6.12; `dotted` is common practice, no
 * source. Refuses any other text with a sentence that quotes it.
 */
export function parseLevel(
  scheme: FirmwareScheme,
  text: string,
): { ok: true; level: ParsedLevel } | Refusal {
  if (text.length > LEVEL_LENGTH_MAX) {
    const problem = `A firmware level has at most ${LEVEL_LENGTH_MAX} characters.`;
    return { ok: false, problem };
  }
  if (scheme === "semver") {
    const parsed = parseSemver(text);
    return parsed.ok ? { ok: true, level: { scheme, value: parsed.value } } : parsed;
  }
  if (scheme === "dotted") {
    const parsed = parseDotted(text);
    return parsed.ok ? { ok: true, level: { scheme, value: parsed.value } } : parsed;
  }
  const parsed = parseDebian(text);
  return parsed.ok ? { ok: true, level: { scheme, value: parsed.value } } : parsed;
}

/**
 * Orders two levels of one model: -1 where `a` is older than `b`, 0 where neither is, 1 otherwise.
 * Build metadata does not count (SemVer clause 10). Refuses when either text cannot be ordered
 * under the scheme.
 */
export function compareLevels(
  scheme: FirmwareScheme,
  a: string,
  b: string,
): { ok: true; order: LevelOrder } | Refusal {
  const first = parseLevel(scheme, a);
  if (!first.ok) return first;
  const second = parseLevel(scheme, b);
  if (!second.ok) return second;
  return { ok: true, order: compareParsed(first.level, second.level) };
}

/**
 * The strictest scheme under which every one of a model's levels can be ordered: SemVer where they
 * all parse, else dotted numbers, else the Debian fallback. Undefined for an empty list and where
 * even the fallback refuses one. A suggestion for the person who sets the model up, no decision.
 */
export function suggestScheme(levels: readonly string[]): FirmwareScheme | undefined {
  if (levels.length === 0) return undefined;
  return FIRMWARE_SCHEMES.find((scheme) => levels.every((level) => parseLevel(scheme, level).ok));
}

function compareParsed(a: ParsedLevel, b: ParsedLevel): LevelOrder {
  if (a.scheme === "semver" && b.scheme === "semver") return compareSemver(a.value, b.value);
  if (a.scheme === "dotted" && b.scheme === "dotted") return compareDotted(a.value, b.value);
  if (a.scheme === "debian" && b.scheme === "debian") return compareDebian(a.value, b.value);
  throw new TypeError(`levels of two schemes were compared: ${a.scheme} and ${b.scheme}`);
}
