// Requirement: a release says from which levels it may be installed and which levels of other
// models it needs (stepping stones and companions; product rule).
import { compareLevels, type FirmwareScheme, parseLevel } from "./levels.ts";

/** Levels from `min` on and below `below`; an end left out is open. */
export interface LevelRange {
  min?: string;
  below?: string;
}

/**
 * Whether a level lies in a range, in the order of the model's scheme; both bounds and level must
 * be readable in it.
 */
export function inLevelRange(
  scheme: FirmwareScheme,
  level: string,
  range: LevelRange,
): { ok: true; inside: boolean } | { ok: false; problem: string } {
  const read = parseLevel(scheme, level);
  if (!read.ok) return read;
  let inside = true;
  if (range.min !== undefined) {
    const compared = compareLevels(scheme, level, range.min);
    if (!compared.ok) return compared;
    inside &&= compared.order >= 0;
  }
  if (range.below !== undefined) {
    const compared = compareLevels(scheme, level, range.below);
    if (!compared.ok) return compared;
    inside &&= compared.order < 0;
  }
  return { ok: true, inside };
}

/** A range in words: "2.0.0 or above and below 3.0.0". */
export function rangeWords({ min, below }: LevelRange): string {
  if (min !== undefined && below !== undefined) return `${min} or above and below ${below}`;
  if (min !== undefined) return `${min} or above`;
  return below !== undefined ? `below ${below}` : "any level";
}
