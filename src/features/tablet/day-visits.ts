import { Temporal } from "temporal-polyfill";
import type { Query } from "../../db/query.ts";
import { dayBounds, localDay } from "../../domain/dates/zone-time.ts";
import { type DayVisitRow, visitsNear } from "./day-store.ts";
import { packetBody, packetVersion } from "./packet.ts";
import { readPacketFacts } from "./packet-store.ts";
import type { TabletVisit } from "./schemas.ts";

const VISITS_MOST = 100;

/** The person's visits of today and tomorrow, each with the version of its packet. */
export async function dayVisits(
  query: Query,
  { firmId, personId }: { firmId: string; personId: string },
  now: Date,
): Promise<TabletVisit[]> {
  const near = await visitsNear(query, firmId, personId, now);
  const visits = near.filter(withinTwoDays(now)).slice(0, VISITS_MOST);
  const jobIds = [...new Set(visits.map(({ jobId }) => jobId))];
  // Asked side by side, the packets travel in one round trip.
  const versions = new Map(
    await Promise.all(
      jobIds.map(async (jobId) => {
        const facts = await readPacketFacts(query, firmId, jobId);
        return [jobId, facts && packetVersion(packetBody(facts, now))] as const;
      }),
    ),
  );
  return visits.flatMap((visit) => {
    const version = versions.get(visit.jobId);
    return version === undefined ? [] : [shown(visit, version)];
  });
}

/** By the calendar of each site: a crew near a border has two. */
function withinTwoDays(now: Date): (visit: DayVisitRow) => boolean {
  const spans = new Map<string, { start: Date; end: Date }>();
  return ({ startsAt, endsAt, timeZone }) => {
    const span = spans.get(timeZone) ?? twoDays(now, timeZone);
    spans.set(timeZone, span);
    return startsAt < span.end && endsAt > span.start;
  };
}

function twoDays(now: Date, timeZone: string): { start: Date; end: Date } {
  const today = localDay(now.toISOString(), timeZone);
  const tomorrow = Temporal.PlainDate.from(today).add({ days: 1 }).toString();
  const { start } = dayBounds(today, timeZone);
  return { start: new Date(start), end: new Date(dayBounds(tomorrow, timeZone).end) };
}

const shown = (visit: DayVisitRow, version: string): TabletVisit => ({
  ...visit,
  startsAt: visit.startsAt.toISOString(),
  endsAt: visit.endsAt.toISOString(),
  packetVersion: version,
});
