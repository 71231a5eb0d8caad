// Requirement: an item names the breakers it needs, and how it leaves them, by name. Apart from the
// plan's shape, so that a tablet judges without the code that reads plans.
import type { BreakerSet, BreakerState } from "./sequence.ts";

/** The breakers of a record with their states, in its order. */
export const breakerSets = (
  states: Readonly<Record<string, BreakerState>> | undefined,
): BreakerSet[] => Object.entries(states ?? {}).map(([breaker, state]) => ({ breaker, state }));
