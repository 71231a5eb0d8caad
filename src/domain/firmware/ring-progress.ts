// Requirement: a release goes from one ring to the next when enough units took it, long enough ago,
// with few enough failures; and stops where the failures are more than chance explains.
import { type FailureRate, failureRate } from "./failure-rate.ts";

export interface RingCriteria {
  /** Units that have to be updated before the next ring. */
  updatedLeast: number;
  /** Days since that many were. */
  soakDays: number;
  /** Highest share of failed updates that is borne, 0 to 1. */
  failureMost: number;
}

export interface RingCounts {
  updated: number;
  failed: number;
  /** Days since the unit that made the number full was updated; undefined before. */
  daysSinceEnough: number | undefined;
}

export interface RingProgress extends FailureRate {
  /** "hold": stop; "pass": the next ring may open; "wait": not yet. */
  verdict: "hold" | "pass" | "wait";
  sentence: string;
}

/** Both ends of a two-sided 90 % interval are one-sided bounds of 95 %. */
const CONFIDENCE = 0.9;

/**
 * Where a ring stands. It is held when the lower 95 % bound of its failure rate lies above what is
 * borne: then at most one ring in twenty with a bearable rate is held by chance.
 */
export function ringProgress(counts: RingCounts, criteria: RingCriteria): RingProgress {
  const { updated, failed, daysSinceEnough } = counts;
  const rate = failureRate(updated + failed, failed, CONFIDENCE);
  const told = `${failed} of ${updated + failed} updates failed`;
  const borne = percent(criteria.failureMost);
  if (rate.low > criteria.failureMost) {
    const bound = `with 95 % confidence at least ${percent(rate.low)} of them do`;
    return {
      ...rate,
      verdict: "hold",
      sentence: `${told}: ${bound}, more than the ${borne} borne.`,
    };
  }
  if (updated < criteria.updatedLeast) {
    const sentence = `${updated} of ${criteria.updatedLeast} units are updated; ${told}.`;
    return { ...rate, verdict: "wait", sentence };
  }
  const soaked = daysSinceEnough ?? 0;
  if (soaked < criteria.soakDays) {
    const waited = `${soaked} of ${criteria.soakDays} days`;
    const sentence = `Enough units are updated since ${waited}; ${told}.`;
    return { ...rate, verdict: "wait", sentence };
  }
  if (rate.rate > criteria.failureMost) {
    const more = `more than the ${borne} borne, though chance may be why`;
    const sentence = `${told}, ${percent(rate.rate)}: ${more}. Update more units.`;
    return { ...rate, verdict: "wait", sentence };
  }
  return { ...rate, verdict: "pass", sentence: `${told}; the next ring may open.` };
}

const percent = (share: number): string => `${Math.round(share * 1000) / 10} %`;
