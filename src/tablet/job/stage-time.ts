// How long a stage took: from its first to its last sign of work, counting only time in which work
// was seen. A lunch is not work, so a gap of more than five minutes counts nothing.
export interface StageClock {
  /** RFC 3339. */
  startedAt: string;
  lastAt: string;
  activeMs: number;
}

export const IDLE_AFTER_MS = 5 * 60_000;

/** The clock after a sign of work at `at`; a clock set back counts nothing and moves nothing. */
export function worked(clock: StageClock | undefined, at: string): StageClock {
  if (!clock) return { startedAt: at, lastAt: at, activeMs: 0 };
  const gapMs = Date.parse(at) - Date.parse(clock.lastAt);
  if (gapMs <= 0) return clock;
  const activeMs = gapMs > IDLE_AFTER_MS ? clock.activeMs : clock.activeMs + gapMs;
  return { ...clock, lastAt: at, activeMs };
}

const DAY_MS = 86_400_000;

/** What is told to the server of a stage that is finished. */
export const stageTime = (stageId: string, clock: StageClock) => ({
  kind: "stage-time" as const,
  stageId,
  startedAt: clock.startedAt,
  endedAt: clock.lastAt,
  activeMs: Math.min(Math.round(clock.activeMs), DAY_MS),
});
