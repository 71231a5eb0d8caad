import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { drawRounds } from "../../domain/rounds/draw-rounds.ts";
import type { RoundsPlan } from "../../domain/rounds/rounds-plan.ts";
import type { RoundsProblem } from "../../domain/rounds/rounds-problem.ts";
import { estimatedTravel } from "../../domain/rounds/travel.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { findCrew } from "../crews/store.ts";
import { readFirm } from "../firms/store.ts";
import { dueSites, type SiteDue } from "../firmware/due-list.ts";
import { isDayOff, isHolidayCountry, publicHolidays } from "../holidays/public-holidays.ts";
import { latestPublished } from "../plans/store.ts";
import { addMinutes, clockMin, crewDays, momentAt, workingDays } from "./crew-days.ts";
import type { NewUpdateRound, Proposal } from "./schemas.ts";
import { searchInThread } from "./search-thread.ts";
import { bookedBetween, findRound, placesOf, visitsToCome } from "./store.ts";

const LOOKED_AT_MOST = 2000;
const PRIORITY = { safety: 4, important: 2, routine: 1 } as const;
const FIVE = 5;

type Ground = Awaited<ReturnType<typeof groundOf>>;

/** Plans rounds for what is due; nothing is kept or booked by it. */
export async function proposeRounds(
  db: Database,
  firmId: string,
  request: NewUpdateRound,
  now: Date,
): Promise<Proposal> {
  const { severity, modelId, region } = request;
  const filter = { severity, modelId, region };
  const asked = { firmId, filter, now };
  const due = await dueSites(db, asked, { after: undefined, most: LOOKED_AT_MOST });
  const freed = await inFirm(db, firmId, (tx) => visitsFreed(tx, request, now));
  const waiting = due.filter(
    ({ nextVisit, units }) => units.length > 0 && (!nextVisit || freed.has(nextVisit.id)),
  );
  const chosen = waiting.toSorted(byUrgency).slice(0, request.sitesMost);
  const ground = await groundOf(db, firmId, request, chosen);
  const problem = problemOf(request, chosen, ground);
  // The same request gives the same search, so that two people who look see the same rounds.
  const searched = await searchInThread(problem, chosen.length + request.days);
  if (!searched.ok) throw new Problem("conflict", searched.problem);
  return proposalOf(request, chosen, ground, searched.plan);
}

/** Visits that are cancelled when these rounds are accepted in place of earlier ones. */
async function visitsFreed(
  tx: FirmTransaction,
  { replacesId }: NewUpdateRound,
  now: Date,
): Promise<Set<string>> {
  if (replacesId === undefined) return new Set();
  if (!(await findRound(tx, replacesId))) throw notFound("update round");
  return new Set(await visitsToCome(tx, replacesId, now));
}

function byUrgency(left: SiteDue, right: SiteDue): number {
  return urgency(left).localeCompare(urgency(right));
}

/** The earliest day first, the graver first on the same day. */
const urgency = ({ units, id }: SiteDue): string => {
  const [first] = units.map(({ dueOn, severity }) => `${dueOn} ${9 - PRIORITY[severity]}`).sort();
  return `${first} ${id}`;
};

async function groundOf(
  db: Database,
  firmId: string,
  request: NewUpdateRound,
  sites: readonly SiteDue[],
) {
  return inFirm(db, firmId, async (tx) => {
    const firm = await readFirm(tx);
    if (!(await latestPublished(tx, request.planId))) {
      throw invalid("/body/planId", "Your firm has no such plan with a published version.");
    }
    const crews = [];
    for (const [index, id] of request.crewIds.entries()) {
      const crew = await findCrew(tx, id);
      if (crew?.active) crews.push({ id, name: crew.name });
      else throw invalid(`/body/crewIds/${index}`, "There is no such crew in your firm.");
    }
    const places = await placesOf(
      tx,
      sites.map(({ id }) => id),
    );
    const country = places[0]?.country ?? "";
    const days = workingDays(request.fromDay, request.days, daysOff(country, request.fromDay));
    const clock = { firstDay: request.fromDay, timeZone: firm.timeZone };
    const [from, to] = [momentAt(request.fromDay, firm.timeZone, 0), dayAfter(days, firm.timeZone)];
    const booked = await bookedBetween(tx, request.crewIds, from, to, request.replacesId);
    return {
      firm,
      crews,
      places: new Map(places.map((one) => [one.id, one])),
      days,
      clock,
      booked,
    };
  });
}

const dayAfter = (days: readonly string[], timeZone: string): Date =>
  momentAt(days.at(-1) ?? "2000-01-01", timeZone, 1440);

function daysOff(country: string, fromDay: string): Set<string> {
  if (!isHolidayCountry(country)) return new Set();
  const year = Number(fromDay.slice(0, 4));
  const found = [year, year + 1].flatMap((one) => publicHolidays({ country }, one));
  return new Set(found.filter(isDayOff).map(({ date }) => date));
}

function baseOf({ firm, places }: Ground) {
  if (firm.baseLatitude !== null && firm.baseLongitude !== null) {
    return { latitude: firm.baseLatitude, longitude: firm.baseLongitude, isEstimate: false };
  }
  const all = [...places.values()];
  const mean = (pick: (one: (typeof all)[number]) => number) =>
    all.reduce((sum, one) => sum + pick(one), 0) / Math.max(all.length, 1);
  return {
    latitude: mean((p) => p.latitude),
    longitude: mean((p) => p.longitude),
    isEstimate: true,
  };
}

function positionsOf(sites: readonly SiteDue[], ground: Ground) {
  const base = baseOf(ground);
  return [
    { latitudeDeg: base.latitude, longitudeDeg: base.longitude },
    ...sites.map(({ id }) => {
      const place = ground.places.get(id);
      return { latitudeDeg: place?.latitude ?? 0, longitudeDeg: place?.longitude ?? 0 };
    }),
  ];
}

function problemOf(
  request: NewUpdateRound,
  sites: readonly SiteDue[],
  ground: Ground,
): RoundsProblem {
  const hours = { startsMin: clockMin(request.startsAt), endsMin: clockMin(request.endsAt) };
  return {
    crewDays: crewDays(ground.crews, ground.days, hours, ground.booked, ground.clock),
    visits: sites.map((site, index) => ({
      ...{ id: site.id, label: site.reference, place: index + 1 },
      workMin: workMin(request, site),
      priority: Math.max(...site.units.map(({ severity }) => PRIORITY[severity])),
    })),
    travel: estimatedTravel(positionsOf(sites, ground)),
    crewDayMin: 30,
  };
}

const workMin = ({ siteMin, unitMin }: NewUpdateRound, { units }: SiteDue): number =>
  siteMin + unitMin * units.length;

function proposalOf(
  request: NewUpdateRound,
  sites: readonly SiteDue[],
  ground: Ground,
  plan: RoundsPlan,
): Proposal {
  const { firstDay, timeZone } = ground.clock;
  const at = (minutes: number) => momentAt(firstDay, timeZone, minutes);
  const site = (id: string) => sites.find((one) => one.id === id) as SiteDue;
  return {
    ...{ sentence: plan.sentence, timeZone, base: baseOf(ground) },
    driveMin: Math.round(plan.driveMin),
    distanceKm: Math.round(plan.distanceM / 1000),
    rounds: plan.rounds.map(({ crewDayId, leavesMin, returnsMin, driveMin, stops }) => {
      const [crewId = "", day = ""] = crewDayId.split(" ");
      return {
        ...{ crewId, crew: ground.crews.find(({ id }) => id === crewId)?.name ?? "", day },
        ...{ leavesAt: at(leavesMin).toISOString(), returnsAt: at(returnsMin).toISOString() },
        driveMin: Math.round(driveMin),
        stops: stops.map(({ visitId, beginsMin, driveMin: drive }) => {
          const { reference, addressLine, locality, units } = site(visitId);
          // In fives as people agree on times; rounding each down keeps their order and distances.
          const starts = at(Math.floor(beginsMin / FIVE) * FIVE);
          return {
            ...{ siteId: visitId, reference, place: `${addressLine}, ${locality}` },
            unitIds: units.map(({ id }) => id),
            startsAt: starts.toISOString(),
            endsAt: addMinutes(starts, workMin(request, site(visitId))).toISOString(),
            driveMin: Math.round(drive),
          };
        }),
      };
    }),
    leftOut: plan.leftOut.map(({ visitId, label, sentence }) => ({
      ...{ siteId: visitId, reference: label, sentence },
    })),
    svg: drawRounds(plan, positionsOf(sites, ground)),
  };
}
