import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import { USUAL_WEEK, type WorkDay, type WorkWeek } from "../../domain/scheduling/work-week.ts";

export interface KeptWeek {
  days: WorkWeek;
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
  for (const { person, days, version } of rows) {
    const kept = { days: days as unknown as WorkDay[], version };
    if (person) people.set(person.id, { ...kept, name: person.name });
    else firm = kept;
  }
  return { firm, people };
}

export const weekOf = ({ firm, people }: Weeks, personId: string): WorkWeek =>
  people.get(personId)?.days ?? firm?.days ?? USUAL_WEEK;

/** False when it has another version by now. */
export async function writeWeek(
  tx: FirmTransaction,
  personId: string | null,
  version: number,
  week: WorkWeek,
): Promise<boolean> {
  const { firmId } = tx;
  const days = week.toSorted((a, b) => a.weekday - b.weekday).map((day) => ({ ...day }));
  if (version === UNWRITTEN) {
    const { count } = await tx.workWeek.createMany({
      data: [{ firmId, id: uuidv7(), personId, days, version: UNWRITTEN + 1 }],
      skipDuplicates: true,
    });
    return count === 1;
  }
  const { count } = await tx.workWeek.updateMany({
    where: { firmId, personId, version },
    data: { days, version: { increment: 1 } },
  });
  return count === 1;
}

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
