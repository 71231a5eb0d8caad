// Requirement: a release says over which levels it may be installed (stepping stones) and which
// levels of other models it needs (companions); the order of updates follows from nothing else
// (product rule).
import type { LevelRange } from "./level-range.ts";
import type { FirmwareScheme } from "./levels.ts";

/** A release as far as the order of updates depends on it. */
export interface OrderRelease {
  level: string;
  /** Levels it may be installed over; any lower level when left out. */
  from?: LevelRange;
  /** Levels that every unit of another model at the site must have while a unit is at this one. */
  needs?: readonly Companion[];
  /** Nothing is updated onto it, though a unit may still stand at it. */
  withdrawn?: boolean;
}

export interface Companion {
  /** May be the release's own model: then the site's other units of it are meant. */
  modelCode: string;
  range: LevelRange;
}

export interface OrderModel {
  code: string;
  scheme: FirmwareScheme;
  releases: readonly OrderRelease[];
}

export interface OrderUnit {
  id: string;
  /** What people call it: "Pack 2", a serial number. */
  label: string;
  modelCode: string;
  level: string;
  /** The level it must end at; left out where it stays as it is. */
  targetLevel?: string;
}
