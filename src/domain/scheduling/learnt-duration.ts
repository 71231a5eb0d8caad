// Requirement: how long a job will take is learnt from how long the last ones like it took
// (product rule). The median is used, which one odd job does not move (its definition: ISO 3534-1,
// from memory; the mean of the two middle ones of an even count).

/** One finished stage as the tablet timed it; milliseconds since 1970. */
export interface TimedStage {
  startMs: number;
  endMs: number;
  /** Time in which work was seen, without pauses. */
  activeMs: number;
}

export interface LearntDuration {
  minutes: number;
  /** Jobs of the same plan, else of the same kind; else what such a job usually takes. */
  from: "plan" | "kind" | "usual";
  /** How many jobs it was learnt from; 0 for the usual one. */
  jobs: number;
}

/** A stage that was open longer lay overnight; up to that, pauses are part of the visit. */
const DAY_AT_WORK_MS = 10 * 3_600_000;
const MINUTE_MS = 60_000;
/** A job clicked through in less was not worked on with the tablet. */
export const SAMPLE_LEAST_MIN = 5;
/** Fewer say too little. */
export const SAMPLES_LEAST = 3;
export const SAMPLES_MOST = 20;
/** People agree on quarters of an hour. */
const STEP_MIN = 15;

/** Common practice of small crews, no source; a firm's own jobs take their place after three. */
export const USUAL_MINUTES: Readonly<Record<string, number>> = {
  install: 420,
  swap: 240,
  removal: 240,
  inspection: 150,
  firmware: 90,
  survey: 75,
};
const USUAL_OTHERWISE_MIN = 120;

/**
 * The minutes a crew spent on a job by its timed stages. Stages timed side by side by two people
 * count once; one that lay overnight counts only the time in which work was seen.
 */
export function workedMinutes(stages: readonly TimedStage[]): number {
  const spans = stages
    .filter(({ startMs, endMs }) => endMs > startMs)
    .map(({ startMs, endMs, activeMs }) => {
      const lengthMs = endMs - startMs;
      const share = Math.min(1, Math.max(0, activeMs) / lengthMs);
      return { startMs, endMs, share: lengthMs <= DAY_AT_WORK_MS ? 1 : share };
    });
  const edges = [...new Set(spans.flatMap(({ startMs, endMs }) => [startMs, endMs]))].sort(
    (a, b) => a - b,
  );
  let sumMs = 0;
  for (const [index, from] of edges.slice(0, -1).entries()) {
    const to = edges[index + 1] ?? from;
    const shares = spans
      .filter(({ startMs, endMs }) => startMs <= from && to <= endMs)
      .map(({ share }) => share);
    sumMs += (to - from) * Math.max(0, ...shares);
  }
  return sumMs / MINUTE_MS;
}

/**
 * How long a job of this kind is likely to take, in whole quarters of an hour, rounded up.
 * @param ofPlan minutes of the last finished jobs of the same plan, the newest first
 * @param ofKind the same of the same kind of job
 */
export function learntDuration(
  ofPlan: readonly number[],
  ofKind: readonly number[],
  kind: string,
): LearntDuration {
  for (const [from, minutes] of [
    ["plan", ofPlan],
    ["kind", ofKind],
  ] as const) {
    const used = minutes.filter((one) => one >= SAMPLE_LEAST_MIN).slice(0, SAMPLES_MOST);
    if (used.length >= SAMPLES_LEAST) {
      return { minutes: inSteps(median(used)), from, jobs: used.length };
    }
  }
  return { minutes: USUAL_MINUTES[kind] ?? USUAL_OTHERWISE_MIN, from: "usual", jobs: 0 };
}

const inSteps = (minutes: number): number =>
  Math.max(STEP_MIN, Math.ceil(minutes / STEP_MIN) * STEP_MIN);

/** The middle one, or the mean of the two middle ones. Throws RangeError of nothing (a bug). */
export function median(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  const [lower, upper] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]];
  if (lower === undefined || upper === undefined)
    throw new RangeError("there is no median of none");
  return (lower + upper) / 2;
}
