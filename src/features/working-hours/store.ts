import { uuidv7 } from "uuidv7";
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import {
  changedFrom,
  USUAL_WEEK,
  type WorkDay,
  type WorkWeek,
} from "../../domain/scheduling/work-week.ts";

export interface Hours {
  /** Null: the firm's, or the usual ones. */
  days: WorkWeek | null;
  /** What they change to, and from which day on. */
  next: { from: string; days: WorkWeek | null } | null;
}

export interface KeptWeek extends Hours {
  version: number;
}

export interface Weeks {
  /** Undefined where the firm has not said. */
  firm: KeptWeek | undefined;
  people: ReadonlyMap<string, KeptWeek & { name: string }>;
}

/** The version of what has never been written. */
export const UNWRITTEN = 1;

export async function readWeeks(tx: FirmTransaction): Promise<Weeks> {
  const rows = await tx.workWeek.findMany({
    where: { firmId: tx.firmId },
    include: { person: { select: { id: true, name: true } } },
    orderBy: { id: "asc" },
  });
  const people = new Map<string, KeptWeek & { name: string }>();
  let firm: KeptWeek | undefined;
  for (const { person, days, nextDays, nextFrom, version } of rows) {
    const next = nextFrom && { from: dayText(nextFrom), days: weekIn(nextDays) };
    const kept = { days: weekIn(days), next, version };
    if (person) people.set(person.id, { ...kept, name: person.name });
    else firm = kept;
  }
  return { firm, people };
}

const weekIn = (json: unknown): WorkWeek | null => json as WorkDay[] | null;
const dayText = (date: Date): string => date.toISOString().slice(0, 10);

/** The firm's hours, what they change to among them. */
export const firmWeek = ({ firm }: Weeks): WorkWeek => whole(firm, USUAL_WEEK);

export const weekOf = (weeks: Weeks, personId: string): WorkWeek =>
  whole(weeks.people.get(personId), firmWeek(weeks));

function whole(hours: Hours | undefined, otherwise: WorkWeek): WorkWeek {
  const before = hours?.days ?? otherwise;
  if (!hours?.next) return before;
  return changedFrom(before, hours.next.days ?? otherwise, hours.next.from);
}

/** False when it has another version by now. */
export async function writeWeek(
  tx: FirmTransaction,
  personId: string | null,
  version: number,
  { days, next }: Hours,
): Promise<boolean> {
  const { firmId } = tx;
  const data = {
    ...{ days: jsonOf(days), nextDays: jsonOf(next?.days ?? null) },
    nextFrom: next && new Date(next.from),
  };
  if (version === UNWRITTEN) {
    const { count } = await tx.workWeek.createMany({
      data: [{ firmId, id: uuidv7(), personId, ...data, version: UNWRITTEN + 1 }],
      skipDuplicates: true,
    });
    return count === 1;
  }
  const { count } = await tx.workWeek.updateMany({
    where: { firmId, personId, version },
    data: { ...data, version: { increment: 1 } },
  });
  return count === 1;
}

const jsonOf = (week: WorkWeek | null) =>
  week === null
    ? Prisma.DbNull
    : week.toSorted((a, b) => a.weekday - b.weekday).map((day) => ({ ...day }));

/** False when it has another version by now. */
export async function forgetWeek(
  tx: FirmTransaction,
  personId: string,
  version: number,
): Promise<boolean> {
  const where = { firmId: tx.firmId, personId };
  if (version === UNWRITTEN) return (await tx.workWeek.count({ where })) === 0;
  const { count } = await tx.workWeek.deleteMany({ where: { ...where, version } });
  return count === 1;
}

export async function writeHolidayPlace(
  tx: FirmTransaction,
  place: { country: string; region: string | null } | null,
): Promise<void> {
  await tx.firm.updateMany({
    where: { id: tx.firmId },
    data: { holidayCountry: place?.country ?? null, holidayRegion: place?.region ?? null },
  });
}

const PLACES_MOST = 20;

/** The countries and regions in which the firm has sites. */
export async function placesOfSites(
  tx: FirmTransaction,
): Promise<{ country: string; region: string }[]> {
  return tx.site.findMany({
    where: { firmId: tx.firmId, archivedAt: null },
    select: { country: true, region: true },
    distinct: ["country", "region"],
    orderBy: [{ country: "asc" }, { region: "asc" }],
    take: PLACES_MOST,
  });
}
