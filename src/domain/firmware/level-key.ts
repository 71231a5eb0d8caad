// Requirement: "due" is one comparison of whole numbers in SQL, so that a due list over a million
// units stays quick (product rule, measured). A level therefore gets a key in 0 … 2^63 - 1, a
// PostgreSQL bigint, that orders exactly as the level does.
//
// Layout: bits from the left, filled up with zeros to 63. A number is 2 bits of size class and 8,
// 12, 16 or 28 bits of value in the smallest class that holds it, so it orders by class, then by
// value, and is never the beginning of another.
//   dotted: up to four numbers; zeros at the end need no bits, as 1.2 and 1.2.0 are one level.
//   semver: major, minor, patch, then 1 for a release or 0 for a prerelease, so that a prerelease
//           sorts below its release; then the prerelease's fields, each after the first led by a 1
//           (fewer fields sort lower): 0 and a number, or 1 and 4 bits for a known word.
// Two levels share a key only where they are equal in order (build metadata, 1.2 and 1.2.0). What
// the layout cannot hold exactly has no key at all, never an approximate one, so "due" is never
// wrong.

import type { DottedLevel } from "./dotted-level.ts";
import { type FirmwareScheme, parseLevel } from "./levels.ts";
import type { SemverLevel } from "./semver-level.ts";

const KEY_BITS = 63;
const NUMBER_WIDTHS_BITS = [8, 12, 16, 28] as const;
const WORD_WIDTH_BITS = 4;

/** The prerelease words that a key can hold, in ASCII order (SemVer clause 11.4.2). */
export const KEYED_PRERELEASE_WORDS = [
  "RC",
  "SNAPSHOT",
  "a",
  "alpha",
  "b",
  "beta",
  "canary",
  "dev",
  "nightly",
  "pre",
  "preview",
  "rc",
  "snapshot",
] as const;

/**
 * The level as an order-preserving whole number, 0 … 2^63 - 1 (a PostgreSQL bigint): for any two
 * levels of one scheme that have keys, the keys order as `compareLevels` does.
 * Undefined ("cannot be ordered by key") for a text that the scheme refuses, for every `debian`
 * level, for a number above 268,435,455, for a prerelease field that is neither a number nor one of
 * KEYED_PRERELEASE_WORDS, and where the fields together need more than 63 bits. Whoever stores keys
 * lists units without one apart: in SQL a missing key is below nothing and would look current.
 */
export function levelKey(scheme: FirmwareScheme, level: string): bigint | undefined {
  const parsed = parseLevel(scheme, level);
  if (!parsed.ok) return undefined;
  if (parsed.level.scheme === "semver") return semverKey(parsed.level.value);
  return parsed.level.scheme === "dotted" ? dottedKey(parsed.level.value) : undefined;
}

function dottedKey(level: DottedLevel): bigint | undefined {
  return key(level.map(numberBits));
}

function semverKey(level: SemverLevel): bigint | undefined {
  const core = level.core.map(numberBits);
  if (level.prerelease.length === 0) return key([...core, "1"]);
  const fields = level.prerelease.map(fieldBits).flatMap((bits, at) => (at ? ["1", bits] : [bits]));
  return key([...core, "0", ...fields]);
}

function key(pieces: readonly (string | undefined)[]): bigint | undefined {
  const significant = concatenate(pieces)?.replace(/0+$/, "");
  if (significant === undefined || significant.length > KEY_BITS) return undefined;
  return BigInt(`0b${significant.padEnd(KEY_BITS, "0")}`);
}

function fieldBits(field: string): string | undefined {
  if (/^\d+$/.test(field)) return concatenate(["0", numberBits(BigInt(field))]);
  const word = (KEYED_PRERELEASE_WORDS as readonly string[]).indexOf(field);
  return word < 0 ? undefined : `1${word.toString(2).padStart(WORD_WIDTH_BITS, "0")}`;
}

function numberBits(value: bigint): string | undefined {
  const size = NUMBER_WIDTHS_BITS.findIndex((width) => value < 1n << BigInt(width));
  const width = NUMBER_WIDTHS_BITS[size];
  if (width === undefined) return undefined;
  return size.toString(2).padStart(2, "0") + value.toString(2).padStart(width, "0");
}

function concatenate(pieces: readonly (string | undefined)[]): string | undefined {
  return pieces.includes(undefined) ? undefined : pieces.join("");
}
