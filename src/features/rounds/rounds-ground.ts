import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { daily } from "../../domain/scheduling/free-stretches.ts";
import type { WorkDay } from "../../domain/scheduling/work-week.ts";
import { invalid } from "../../errors.ts";
import { findCrew } from "../crews/store.ts";
import { crewFacts } from "../diary/facts-store.ts";
import { readFirm } from "../firms/store.ts";
import type { SiteDue } from "../firmware/due-list.ts";
import { latestPublished } from "../plans/store.ts";
import { requirementsByKind } from "../qualifications/requirement-store.ts";
import { heldBy } from "../qualifications/store.ts";
import { visitHoursOf } from "../visit-hours/store.ts";
import { holidaysBetween } from "../working-hours/days-off.ts";
import { DAY_MIN, type FirmClock, momentAt, workingDays } from "./crew-days.ts";
import type { NewUpdateRound } from "./schemas.ts";
import { placesOf } from "./store.ts";

const LOOK_AHEAD_DAYS = 120;
const UPDATE_KIND = "firmware";

export type Ground = Awaited<ReturnType<typeof groundOf>>;

/** Everything rounds are planned from, as it is in the diary now without the visits freed. */
export async function groundOf(
  db: Database,
  firmId: string,
  request: NewUpdateRound,
  asked: { sites: readonly SiteDue[]; freed: ReadonlySet<string> },
) {
  const siteIds = asked.sites.map(({ id }) => id);
  return inFirm(db, firmId, async (tx) => {
    const firm = await readFirm(tx);
    await requireAsked(tx, request);
    const places = await placesOf(tx, siteIds);
    const clock: FirmClock = { firstDay: request.fromDay, timeZone: firm.timeZone };
    const span = {
      startsAt: momentAt(clock, 0),
      endsAt: momentAt(clock, LOOK_AHEAD_DAYS * DAY_MIN),
    };
    const crews = (await crewFacts(tx, request.crewIds, span)).map(({ visits, ...crew }) => ({
      ...{ ...crew, visits: visits.filter(({ visitId }) => !asked.freed.has(visitId)) },
    }));
    const people = crews.flatMap((crew) => crew.people);
    const requirements = (await requirementsByKind(tx)).get(UPDATE_KIND) ?? [];
    const [from, to] = [span.startsAt, span.endsAt].map((at) => at.toISOString().slice(0, 10));
    const holidays = holidaysBetween(firm, places[0], from ?? "", to ?? "");
    const weeks = people.map(({ week }) => week);
    return {
      ...{ firm, crews, clock, requirements, within: withinOf(request) },
      places: new Map(places.map((one) => [one.id, one])),
      days: workingDays(request.fromDay, request.days, new Set(holidays.keys()), weeks),
      held: await heldBy(
        tx,
        people.map(({ id }) => id),
      ),
      visitHours: await visitHoursOf(tx, siteIds),
    };
  });
}

async function requireAsked(tx: FirmTransaction, { planId, crewIds }: NewUpdateRound) {
  if (!(await latestPublished(tx, planId))) {
    throw invalid("/body/planId", "Your firm has no such plan with a published version.");
  }
  for (const [index, id] of crewIds.entries()) {
    const crew = await findCrew(tx, id);
    if (crew?.active) continue;
    throw invalid(`/body/crewIds/${index}`, "There is no such crew in your firm.");
  }
}

const withinOf = ({ startsAt = "00:00", endsAt = "23:59" }: NewUpdateRound): WorkDay[] =>
  daily(startsAt, endsAt);
