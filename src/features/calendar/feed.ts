// A person's visits as a calendar. It goes through the hands of whoever runs that person's calendar
// program, so it says where and when and for which job, and nothing about the customer: no name, no
// telephone, no note for the crew. Those are behind the link, for whoever signs in.
import type { FirmTransaction } from "../../db/scope.ts";
import { type CalendarEvent, writeCalendar } from "../../domain/calendar/write-calendar.ts";
import { isLanguage, type Language } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import { type FeedVisit, findFeedReader, listFeedVisits } from "./feed-store.ts";

const DAY_MS = 86_400_000;
const DAYS_BACK = 30;
const DAYS_AHEAD = 180;
const VISITS_MOST = 500;
const REFRESH_MINUTES = 60;

/** The same visits give the same text, so that a reader who has it already is told so. */
export async function writeFeed(
  tx: FirmTransaction,
  personId: string,
  { now, baseUrl }: { now: Date; baseUrl: string },
): Promise<string | undefined> {
  const reader = await findFeedReader(tx, personId);
  if (!reader) return undefined;
  const own = reader.language ?? reader.firm.language;
  const language: Language = isLanguage(own) ? own : "en";
  const day = (days: number): Date => new Date(now.getTime() + days * DAY_MS);
  const visits = await listFeedVisits(tx, personId, {
    from: day(-DAYS_BACK),
    to: day(DAYS_AHEAD),
    cancelledFrom: day(-1),
    most: VISITS_MOST,
  });
  return writeCalendar({
    name: say(language, "calendar.name", { person: reader.name, firm: reader.firm.name }),
    refreshMinutes: REFRESH_MINUTES,
    events: visits.map((visit) => eventOf(visit, language, baseUrl)),
  });
}

function eventOf(visit: FeedVisit, language: Language, baseUrl: string): CalendarEvent {
  const { job, crew } = visit;
  const isCancelled = visit.state === "cancelled";
  const what = `${job.reference} ${job.title}`;
  const url = new URL(`/jobs/${job.id}`, baseUrl).href;
  return {
    uid: visit.id,
    sequence: visit.sequence,
    // Without a method, the time of the last change (RFC 5545 3.8.7.2).
    stamp: visit.updatedAt.toISOString(),
    start: visit.startsAt.toISOString(),
    end: visit.endsAt.toISOString(),
    status: isCancelled ? "CANCELLED" : "CONFIRMED",
    summary: isCancelled ? say(language, "calendar.cancelled", { what }) : what,
    location: `${job.site.addressLine}, ${job.site.locality} ${job.site.postcode}`,
    place: { latitude: job.site.latitude, longitude: job.site.longitude },
    description: `${say(language, "calendar.crew", { crew: crew.name })}\n${url}`,
    url,
  };
}
