import { Temporal } from "temporal-polyfill";
import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { dayBounds, localDay } from "../../domain/dates/zone-time.ts";
import type { DiaryCrew, Wish } from "../../domain/scheduling/diary-facts.ts";
import { type DayLook, firstFree, type Suggestion } from "../../domain/scheduling/first-free.ts";
import { expiring } from "../../domain/scheduling/qualified.ts";
import { dayHours } from "../../domain/scheduling/work-week.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { findJob, type JobRow } from "../jobs/store.ts";
import { crewFacts } from "./facts-store.ts";
import { learnDurations } from "./learn-durations.ts";
import { clocks } from "./places.ts";
import type { FirstFree, FirstFreeQuery } from "./schemas.ts";
import { shownMoments } from "./shown-moments.ts";
import { wishFor } from "./wish.ts";

const DAY_MS = 86_400_000;
const QUARTER_MIN = 15;
const REFUSED_MOST = 120;

type Reply = z.infer<typeof FirstFree>;

/** The first places in the diary that a visit of the job would be taken at. */
export async function suggestFirstFree(
  tx: FirmTransaction,
  jobId: string,
  query: FirstFreeQuery,
  now: Date,
): Promise<Reply> {
  const job = await openJobOf(tx, jobId);
  const { timeZone } = job.site;
  const days = daysFrom(query.from ?? localDay(now.toISOString(), timeZone), query.days);
  const [first = "", last = ""] = [days[0], days.at(-1)];
  const span = {
    startsAt: new Date(Date.parse(dayBounds(first, timeZone).start) - DAY_MS),
    endsAt: new Date(Date.parse(dayBounds(last, timeZone).end) + DAY_MS),
  };
  const crews = await crewFacts(tx, query.crewId ? [query.crewId] : undefined, span);
  if (query.crewId && !crews[0]?.people.length) {
    throw invalid("/query/crewId", "There is no such crew with active people in your firm.");
  }
  const duration = await durationOf(tx, job, query.minutes, longestDay(crews, days, timeZone));
  const wish = await wishFor(tx, {
    ...{ kind: job.kind, minutes: duration.minutes, site: job.site, span, notBefore: now },
    instrumentIds: query.instrumentIds ?? [],
    personIds: crews.flatMap(({ people }) => people.map(({ id }) => id)),
    days: { from: first, to: last },
  });
  requireInstruments(wish, query.instrumentIds ?? []);
  const { suggestions, refused } = firstFree(wish, crews, days, query.most);
  return {
    ...{ duration, timeZone },
    suggestions: suggestions.map((one) => shownSuggestion(one, wish, crews)),
    refused: refused.slice(0, REFUSED_MOST).map((look) => shownRefusal(look, crews)),
  };
}

async function openJobOf(tx: FirmTransaction, id: string): Promise<JobRow> {
  const job = await findJob(tx, id);
  if (!job) throw notFound("job");
  if (job.state === "open") return job;
  throw new Problem("job-not-open", `${job.reference} is ${job.state}; it takes no more visits.`);
}

function requireInstruments({ instruments }: Wish, ids: readonly string[]): void {
  const known = new Set(instruments.map(({ id }) => id));
  if (ids.every((id) => known.has(id))) return;
  throw invalid("/query/instrumentIds", "One of these is no instrument of your firm.");
}

function daysFrom(first: string, count: number): string[] {
  const start = Temporal.PlainDate.from(first);
  return Array.from({ length: count }, (_, at) => start.add({ days: at }).toString());
}

/** Minutes of the longest of these days of any of the crews. */
function longestDay(
  crews: readonly DiaryCrew[],
  days: readonly string[],
  timeZone: string,
): number {
  const lengths = crews.flatMap(({ people }) =>
    days.map((day) => {
      const hours = dayHours(
        day,
        timeZone,
        people.map(({ week }) => week),
      );
      return hours ? (hours.endMs - hours.startMs) / 60_000 : 0;
    }),
  );
  return Math.max(0, ...lengths);
}

async function durationOf(
  tx: FirmTransaction,
  job: JobRow,
  given: number | undefined,
  longestMin: number,
): Promise<Reply["duration"]> {
  if (given !== undefined) return { minutes: given, from: "given", jobs: 0, isCapped: false };
  const { planId } = job.planVersion;
  const learnt = (await learnDurations(tx, [job.kind]))({ planId, kind: job.kind });
  const most = Math.floor(longestMin / QUARTER_MIN) * QUARTER_MIN;
  const isCapped = most > 0 && learnt.minutes > most;
  return { ...learnt, minutes: isCapped ? most : learnt.minutes, isCapped };
}

function shownSuggestion(
  { crewId, startMs, endMs, latestStartMs, day, ...drives }: Suggestion,
  wish: Wish,
  crews: readonly DiaryCrew[],
): Reply["suggestions"][number] {
  const crew = crews.find(({ id }) => id === crewId) as DiaryCrew;
  const runningOut = expiring(crew.people, wish.requirements, wish.held, day);
  return {
    ...{ crew: { id: crewId, name: crew.name }, day, ...drives },
    ...{ startsAt: new Date(startMs).toISOString(), endsAt: new Date(endMs).toISOString() },
    ...clocks({ startMs, endMs }, wish.timeZone),
    latestStartsAt: new Date(latestStartMs).toISOString(),
    cautions: runningOut.map((one) => ({ what: "qualification-ends" as const, ...one })),
  };
}

function shownRefusal(
  { crewId, day, obstacles }: DayLook,
  crews: readonly DiaryCrew[],
): Reply["refused"][number] {
  const name = crews.find(({ id }) => id === crewId)?.name ?? "";
  return { crew: { id: crewId, name }, day, obstacles: obstacles.map(shownMoments) };
}
