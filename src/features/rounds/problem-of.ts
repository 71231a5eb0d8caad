import type { Position } from "../../domain/rounds/geodesic.ts";
import type { CrewDay, RoundsProblem, RoundVisit } from "../../domain/rounds/rounds-problem.ts";
import { estimatedTravel } from "../../domain/rounds/travel.ts";
import type { DiaryCrew } from "../../domain/scheduling/diary-facts.ts";
import { lacking, lackSentence } from "../../domain/scheduling/qualified.ts";
import type { SiteDue } from "../firmware/due-list.ts";
import { beginWindows, crewDays } from "./crew-days.ts";
import type { Ground } from "./rounds-ground.ts";
import type { NewUpdateRound, Proposal } from "./schemas.ts";

export const PRIORITY = { safety: 4, important: 2, routine: 1 } as const;
/** Driving that is worth saving one crew day. */
const CREW_DAY_MIN = 30;

export interface LaidOut {
  problem: RoundsProblem;
  positions: readonly Position[];
  /** Crews that are not sent on a day, and why. */
  notSent: Proposal["notSent"];
}

/** The rounds' problem: the base first, then the sites, then where crews come from and go to. */
export function problemOf(
  request: NewUpdateRound,
  sites: readonly SiteDue[],
  ground: Ground,
  now: Date,
): LaidOut {
  const { latitude, longitude } = baseOf(ground);
  const positions: Position[] = [
    { latitudeDeg: latitude, longitudeDeg: longitude },
    ...sites.map(({ id }) => {
      const place = ground.places.get(id);
      return { latitudeDeg: place?.latitude ?? 0, longitudeDeg: place?.longitude ?? 0 };
    }),
  ];
  const placeOf = (position: Position | null) =>
    position === null ? 0 : positions.push(position) - 1;
  const looks = ground.days.flatMap((day) =>
    ground.crews.map((crew) => lookAt(crew, day, ground, now, placeOf)),
  );
  return {
    problem: {
      crewDays: looks.flatMap(({ free }) => free),
      visits: sites.map((site, index) => visitOf(request, site, index + 1, ground)),
      travel: estimatedTravel(positions),
      crewDayMin: CREW_DAY_MIN,
    },
    positions,
    notSent: looks.flatMap(({ notSent }) => notSent),
  };
}

function lookAt(
  crew: DiaryCrew,
  day: string,
  { clock, within, requirements, held }: Ground,
  now: Date,
  placeOf: (position: Position | null) => number,
): { free: CrewDay[]; notSent: Proposal["notSent"] } {
  const hours = { within, notBeforeMs: now.getTime() };
  const lacks = lacking(crew.people, requirements, held, day);
  const lacked = new Set(lacks.map(({ kindId }) => kindId));
  const skills = requirements.flatMap((one) => (lacked.has(one.kindId) ? [] : [one.kindName]));
  const free = crewDays(crew, day, clock, hours, placeOf).map((one) => ({ ...one, skills }));
  const refused = (sentence: string) => [{ crewId: crew.id, crew: crew.name, day, sentence }];
  if (free.length === 0) return { free, notSent: refused("No free hours: away or booked.") };
  if (!lacks[0]) return { free, notSent: [] };
  return { free, notSent: refused(lackSentence(lacks[0], crew.name, day)) };
}

function visitOf(
  request: NewUpdateRound,
  site: SiteDue,
  place: number,
  { requirements, visitHours, places, days, clock }: Ground,
): RoundVisit {
  const minutes = workMin(request, site);
  const siteZone = places.get(site.id)?.timeZone ?? clock.timeZone;
  const windows = beginWindows(visitHours.get(site.id) ?? [], minutes, days, siteZone, clock);
  return {
    ...{ id: site.id, label: site.reference, place, workMin: minutes },
    ...(windows ? { windows } : {}),
    skills: requirements.map(({ kindName }) => kindName),
    priority: Math.max(...site.units.map(({ severity }) => PRIORITY[severity])),
  };
}

export const workMin = (
  { siteMin, unitMin }: NewUpdateRound,
  { units }: { units: readonly unknown[] },
): number => siteMin + unitMin * units.length;

export function baseOf({ firm, places }: Ground): Proposal["base"] {
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
