import type { FirmTransaction } from "../../db/scope.ts";
import { type WorkWeek, weekOn } from "../../domain/scheduling/work-week.ts";
import { notFound } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { readFirm } from "../firms/store.ts";
import { regionCode } from "../holidays/public-holidays.ts";
import { findPerson } from "../people/store.ts";
import type { PersonWeekInput, WorkingHoursInput } from "./schemas.ts";
import {
  firmWeek,
  forgetWeek,
  type Hours,
  type KeptWeek,
  readWeeks,
  UNWRITTEN,
  weekOf,
  writeHolidayPlace,
  writeWeek,
} from "./store.ts";

/** @param today by the firm's calendar */
export async function putWorkingHours(
  tx: FirmTransaction,
  version: number,
  { week, validFrom, holidays }: WorkingHoursInput,
  today: string,
) {
  const { firm } = await readWeeks(tx);
  const hours = hoursFrom(firm, week, validFrom, today);
  if (!(await writeWeek(tx, null, version, hours))) throw editedMeanwhile();
  const region = holidays?.region ?? null;
  const place = holidays && {
    country: holidays.country,
    region: region === null ? null : (regionCode(holidays.country, region) ?? null),
  };
  await writeHolidayPlace(tx, place);
  return hoursOf(tx, today);
}

/** A change from a day to come takes the place of one that was planned; one from now ends it. */
function hoursFrom(
  kept: KeptWeek | undefined,
  week: WorkWeek | null,
  validFrom: string | undefined,
  today: string,
): Hours {
  if (validFrom === undefined || validFrom <= today) return { days: week, next: null };
  return { days: ownOn(kept, today), next: { from: validFrom, days: week } };
}

/** Null where they have none of their own on the day. */
const ownOn = (kept: KeptWeek | undefined, today: string): WorkWeek | null =>
  kept?.next && kept.next.from <= today ? kept.next.days : (kept?.days ?? null);

const nextOf = (kept: KeptWeek | undefined, today: string) =>
  kept?.next && kept.next.from > today
    ? { validFrom: kept.next.from, week: kept.next.days && [...kept.next.days] }
    : null;

export async function hoursOf(tx: FirmTransaction, today: string) {
  const { holidayCountry: country, holidayRegion: region } = await readFirm(tx);
  const weeks = await readWeeks(tx);
  const { firm, people } = weeks;
  return {
    week: [...weekOn(firmWeek(weeks), today)],
    isUsual: ownOn(firm, today) === null,
    next: nextOf(firm, today),
    holidays: country === null ? null : { country, region },
    people: [...people].map(([id, kept]) => ({
      ...{ person: { id, name: kept.name }, week: [...weekOn(weekOf(weeks, id), today)] },
      ...{ isOwn: ownOn(kept, today) !== null, next: nextOf(kept, today), version: kept.version },
    })),
    version: firm?.version ?? UNWRITTEN,
  };
}

export async function personHours(tx: FirmTransaction, id: string, today: string) {
  const person = await findPerson(tx, id);
  if (!person) throw notFound("person");
  const weeks = await readWeeks(tx);
  const own = weeks.people.get(id);
  return {
    person: { id, name: person.name },
    week: [...weekOn(weekOf(weeks, id), today)],
    ...{ isOwn: ownOn(own, today) !== null, next: nextOf(own, today) },
    version: own?.version ?? UNWRITTEN,
  };
}

export async function putPersonHours(
  tx: FirmTransaction,
  of: { id: string; version: number; today: string },
  { week, validFrom }: PersonWeekInput,
) {
  const { id, version, today } = of;
  await personHours(tx, id, today);
  const hours = hoursFrom((await readWeeks(tx)).people.get(id), week, validFrom, today);
  const isNone = hours.days === null && hours.next === null;
  const isDone = await (isNone ? forgetWeek(tx, id, version) : writeWeek(tx, id, version, hours));
  if (!isDone) throw editedMeanwhile();
  return personHours(tx, id, today);
}
