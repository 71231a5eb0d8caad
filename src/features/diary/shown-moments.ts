import type { Stretch } from "../../domain/scheduling/work-week.ts";

/** The same without milliseconds: `startsAt` and `endsAt` instead, where it has a stretch. */
export type Shown<One> = One extends Stretch
  ? Omit<One, keyof Stretch> & { startsAt: string; endsAt: string }
  : One;

/** As replies and pages carry it. */
export function shownMoments<One extends object>(one: One): Shown<One> {
  if (!("startMs" in one && "endMs" in one)) return one as Shown<One>;
  const { startMs, endMs, ...others } = one as One & Stretch;
  return {
    ...others,
    startsAt: new Date(startMs).toISOString(),
    endsAt: new Date(endMs).toISOString(),
  } as unknown as Shown<One>;
}
