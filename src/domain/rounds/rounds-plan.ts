// Requirement: a plan says for every stop when the crew arrives, begins and leaves, and for every
// visit left out why (product rule). Times are minutes from the start that the problem counts from.

export interface RoundStop {
  visitId: string;
  label: string;
  place: number;
  driveMin: number;
  distanceM: number;
  arrivesMin: number;
  beginsMin: number;
  leavesMin: number;
}

export interface Round {
  crewDayId: string;
  label: string;
  startPlace: number;
  endPlace: number;
  leavesMin: number;
  returnsMin: number;
  /** To the last place and home again included. */
  driveMin: number;
  distanceM: number;
  workMin: number;
  waitMin: number;
  stops: readonly RoundStop[];
}

/** Why no crew day takes a visit: in the order in which it is asked. */
export const LEFT_OUT_REASONS = ["skills", "hours", "load", "too-far", "no-room"] as const;
export type LeftOutReason = (typeof LEFT_OUT_REASONS)[number];

export interface LeftOut {
  visitId: string;
  label: string;
  place: number;
  reason: LeftOutReason;
  sentence: string;
}

export interface RoundsPlan {
  /** Only crew days with stops. */
  rounds: readonly Round[];
  leftOut: readonly LeftOut[];
  driveMin: number;
  distanceM: number;
  sentence: string;
}
