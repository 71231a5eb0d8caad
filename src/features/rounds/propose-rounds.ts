import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { drawRounds } from "../../domain/rounds/draw-rounds.ts";
import type { RoundsPlan } from "../../domain/rounds/rounds-plan.ts";
import { notFound, Problem } from "../../errors.ts";
import { dueSites, type SiteDue } from "../firmware/due-list.ts";
import { addMinutes, FIVE, momentAt } from "./crew-days.ts";
import { baseOf, type LaidOut, PRIORITY, problemOf, workMin } from "./problem-of.ts";
import { type Ground, groundOf } from "./rounds-ground.ts";
import type { NewUpdateRound, Proposal } from "./schemas.ts";
import { searchInThread } from "./search-thread.ts";
import { findRound, visitsToCome } from "./store.ts";

const LOOKED_AT_MOST = 2000;

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
  const ground = await groundOf(db, firmId, request, { sites: chosen, freed });
  const laidOut = problemOf(request, chosen, ground, now);
  // The same request gives the same search, so that two people who look see the same rounds.
  const searched = await searchInThread(laidOut.problem, chosen.length + request.days);
  if (!searched.ok) throw new Problem("conflict", searched.problem);
  return proposalOf(request, chosen, { ground, laidOut, plan: searched.plan });
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

function proposalOf(
  request: NewUpdateRound,
  sites: readonly SiteDue[],
  { ground, laidOut, plan }: { ground: Ground; laidOut: LaidOut; plan: RoundsPlan },
): Proposal {
  const { timeZone } = ground.clock;
  const at = (minutes: number) => momentAt(ground.clock, minutes);
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
    notSent: laidOut.notSent,
    svg: drawRounds(plan, laidOut.positions),
  };
}
