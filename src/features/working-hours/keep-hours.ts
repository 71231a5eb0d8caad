import type { FirmTransaction } from "../../db/scope.ts";
import { USUAL_WEEK, type WorkWeek } from "../../domain/scheduling/work-week.ts";
import { notFound } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { readFirm } from "../firms/store.ts";
import { regionCode } from "../holidays/public-holidays.ts";
import { findPerson } from "../people/store.ts";
import type { WorkingHoursInput } from "./schemas.ts";
import { forgetWeek, readWeeks, UNWRITTEN, weekOf, writeHolidayPlace, writeWeek } from "./store.ts";

export async function putWorkingHours(
  tx: FirmTransaction,
  version: number,
  { week, holidays }: WorkingHoursInput,
) {
  if (!(await writeWeek(tx, null, version, week))) throw editedMeanwhile();
  const region = holidays?.region ?? null;
  const place = holidays && {
    country: holidays.country,
    region: region === null ? null : (regionCode(holidays.country, region) ?? null),
  };
  await writeHolidayPlace(tx, place);
  return hoursOf(tx);
}

export async function hoursOf(tx: FirmTransaction) {
  const { holidayCountry: country, holidayRegion: region } = await readFirm(tx);
  const { firm, people } = await readWeeks(tx);
  return {
    week: [...(firm?.days ?? USUAL_WEEK)],
    isUsual: firm === undefined,
    holidays: country === null ? null : { country, region },
    people: [...people].map(([id, { name, days, version }]) => ({
      ...{ person: { id, name }, week: [...days], isOwn: true, version },
    })),
    version: firm?.version ?? UNWRITTEN,
  };
}

export async function personHours(tx: FirmTransaction, id: string) {
  const person = await findPerson(tx, id);
  if (!person) throw notFound("person");
  const weeks = await readWeeks(tx);
  const own = weeks.people.get(id);
  return {
    person: { id, name: person.name },
    week: [...weekOf(weeks, id)],
    isOwn: own !== undefined,
    version: own?.version ?? UNWRITTEN,
  };
}

/** @param week null: the firm's hours again */
export async function putPersonHours(
  tx: FirmTransaction,
  id: string,
  version: number,
  week: WorkWeek | null,
) {
  await personHours(tx, id);
  const isDone = await (week ? writeWeek(tx, id, version, week) : forgetWeek(tx, id, version));
  if (!isDone) throw editedMeanwhile();
  return personHours(tx, id);
}
