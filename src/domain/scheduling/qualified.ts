// Requirement: work of a kind is done by people who are qualified for it on the day (product rule:
// licensed practice prevails, and the firm says which qualification its work asks for). A
// qualification counts from its first to its last day, both included, as a certificate is read in
// the trade (common practice, no source). Days are plain dates at the site.

import { addPeriod } from "../dates/period.ts";
import { daysBetween } from "../dates/plain-date.ts";

/** That a person holds a qualification; without `validTo` it does not run out. */
export interface Held {
  personId: string;
  kindId: string;
  validFrom: string;
  validTo: string | null;
}

/** `everyone` of the crew must hold it, or `someone` of them. */
export interface Requirement {
  kindId: string;
  kindName: string;
  askedOf: "everyone" | "someone";
  /** From so many days before its end it is told that a qualification runs out. */
  warnDays: number;
}

export interface Crewman {
  id: string;
  name: string;
}

/**
 * A requirement that is not met on the day. The person is the one who lacks it, or of whom it ended
 * last; null where somebody of the crew should have it and nobody ever had. `endedOn` is the last
 * day it counted, `startsOn` the first day on which it will.
 */
export interface Lack {
  kindId: string;
  kindName: string;
  askedOf: "everyone" | "someone";
  personId: string | null;
  personName: string | null;
  endedOn: string | null;
  startsOn: string | null;
}

/** What counts on the day and runs out soon after: the last day, and the days until then. */
export interface Expiring {
  kindId: string;
  kindName: string;
  personId: string;
  personName: string;
  endsOn: string;
  daysLeft: number;
}

const counts = ({ validFrom, validTo }: Held, day: string): boolean =>
  validFrom <= day && (validTo === null || day <= validTo);

/** What a crew lacks on a day for work with these requirements; empty where it may do the work. */
export function lacking(
  people: readonly Crewman[],
  requirements: readonly Requirement[],
  held: readonly Held[],
  day: string,
): Lack[] {
  return requirements.flatMap((requirement) => {
    const own = held.filter(({ kindId }) => kindId === requirement.kindId);
    const without = people.filter(
      ({ id }) => !own.some((one) => one.personId === id && counts(one, day)),
    );
    const lacks = without.map((person) => lackOf(requirement, person, own, day));
    if (requirement.askedOf === "everyone") return lacks;
    return without.length < people.length ? [] : [nearest(requirement, lacks)];
  });
}

function lackOf(
  { kindId, kindName, askedOf }: Requirement,
  { id, name }: Crewman,
  held: readonly Held[],
  day: string,
): Lack {
  const own = held.filter(({ personId }) => personId === id);
  const ends = own.flatMap(({ validTo }) => (validTo !== null && validTo < day ? [validTo] : []));
  const starts = own.flatMap(({ validFrom }) => (validFrom > day ? [validFrom] : []));
  return {
    ...{ kindId, kindName, askedOf, personId: id, personName: name },
    endedOn: ends.sort().at(-1) ?? null,
    startsOn: starts.sort()[0] ?? null,
  };
}

/** Of a crew in which nobody has it, the one who is nearest to it. */
function nearest({ kindId, kindName, askedOf }: Requirement, lacks: readonly Lack[]): Lack {
  const [last] = lacks
    .filter(({ endedOn }) => endedOn !== null)
    .toSorted((a, b) => (b.endedOn ?? "").localeCompare(a.endedOn ?? ""));
  const [next] = lacks
    .filter(({ startsOn }) => startsOn !== null)
    .toSorted((a, b) => (a.startsOn ?? "").localeCompare(b.startsOn ?? ""));
  const nobody = { personId: null, personName: null, endedOn: null, startsOn: null };
  return last ?? next ?? { kindId, kindName, askedOf, ...nobody };
}

/**
 * Qualifications that the work rests on and that run out within the requirement's warning days
 * after the day. One that is renewed without a gap runs on; where someone of the crew is enough,
 * only the longest one matters.
 */
export function expiring(
  people: readonly Crewman[],
  requirements: readonly Requirement[],
  held: readonly Held[],
  day: string,
): Expiring[] {
  return requirements.flatMap(({ kindId, kindName, askedOf, warnDays }) => {
    const ends = people.flatMap(({ id, name }) => {
      const own = held.filter((one) => one.kindId === kindId && one.personId === id);
      const endsOn = coveredUntil(own, day);
      return endsOn === undefined ? [] : [{ personId: id, personName: name, endsOn }];
    });
    const resting = askedOf === "everyone" ? ends : longest(ends);
    return resting.flatMap(({ endsOn, ...person }) => {
      const daysLeft = endsOn === null ? Number.POSITIVE_INFINITY : daysBetween(day, endsOn);
      if (endsOn === null || daysLeft > warnDays) return [];
      return [{ kindId, kindName, ...person, endsOn, daysLeft }];
    });
  });
}

function longest<One extends { endsOn: string | null }>(ends: readonly One[]): One[] {
  const key = ({ endsOn }: One): string => endsOn ?? "9999-12-31";
  return ends.toSorted((a, b) => key(b).localeCompare(key(a))).slice(0, 1);
}

/**
 * The last day to which these run on from a day without a gap: null where for good, undefined where
 * none counts on the day itself.
 */
export function coveredUntil(held: readonly Held[], day: string): string | null | undefined {
  let end: string | undefined;
  let next = day;
  for (;;) {
    const running = held.filter((one) => counts(one, next));
    if (running.length === 0) return end;
    if (running.some(({ validTo }) => validTo === null)) return null;
    end =
      running
        .map(({ validTo }) => validTo ?? next)
        .sort()
        .at(-1) ?? next;
    next = addPeriod(end, { days: 1 });
  }
}

/** A lack in a sentence: who, which qualification, and when it ended or begins. */
export function lackSentence(lack: Lack, crewName: string, day: string): string {
  const { kindName, askedOf, personName, endedOn, startsOn } = lack;
  const what = `"${kindName}"`;
  const when = endedOn !== null ? `ended on ${endedOn}` : `begins only on ${startsOn}`;
  if (askedOf === "everyone" && personName !== null) {
    if (endedOn === null && startsOn === null) return `${personName} does not hold ${what}.`;
    return `${personName}'s ${what} ${when}; it is needed on ${day}.`;
  }
  const nobody = `Nobody in ${crewName} holds ${what} on ${day}`;
  return personName === null ? `${nobody}.` : `${nobody}: ${personName}'s ${when}.`;
}
