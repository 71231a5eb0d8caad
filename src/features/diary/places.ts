import { localTime } from "../../domain/dates/zone-time.ts";
import type { Position } from "../../domain/rounds/geodesic.ts";
import type { Stretch } from "../../domain/scheduling/work-week.ts";
import type { DiaryVisitRow } from "./visit-store.ts";

export const positionOf = ({ job: { site } }: DiaryVisitRow): Position => ({
  ...{ latitudeDeg: site.latitude, longitudeDeg: site.longitude },
});

export const stretch = ({ startsAt, endsAt }: { startsAt: Date; endsAt: Date }): Stretch => ({
  ...{ startMs: startsAt.getTime(), endMs: endsAt.getTime() },
});

/** Times of day by the clocks of the time zone, to the minute. */
export function clocks({ startMs, endMs }: Stretch, timeZone: string) {
  const clock = (ms: number) => localTime(new Date(ms).toISOString(), timeZone).slice(11, 16);
  return { from: clock(startMs), to: clock(endMs) };
}
