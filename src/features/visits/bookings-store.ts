// What a visit holds for its hours: its crew, each active person in it, each instrument. Bookings
// are made under locks on what they hold, always taken in the same order, so that two of them never
// wait for each other; the exclusion constraint stands behind that.
import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface Bookable {
  crew?: { id: string; name: string; active: boolean };
  people: { id: string; name: string }[];
  instruments: { id: string; reference: string; retiredOn: string | null }[];
}

/** The crew with its active people, and the instruments, locked; those of the firm only. */
export async function lockBookable(
  tx: FirmTransaction,
  crewId: string,
  instrumentIds: string[],
): Promise<Bookable> {
  const { firmId } = tx;
  const [crew] = await tx.$queryRaw<NonNullable<Bookable["crew"]>[]>`
    SELECT id, name, active FROM crew WHERE firm_id = ${firmId}::uuid AND id = ${crewId}::uuid
    FOR NO KEY UPDATE`;
  const people = await tx.$queryRaw<Bookable["people"]>`SELECT p.id, p.name FROM person p
    WHERE p.firm_id = ${firmId}::uuid AND p.active AND p.id IN (
      SELECT person_id FROM crew_member
      WHERE firm_id = ${firmId}::uuid AND crew_id = ${crewId}::uuid)
    ORDER BY p.id FOR NO KEY UPDATE`;
  const instruments = await tx.$queryRaw<Bookable["instruments"]>`
    SELECT id, reference, retired_on::text AS "retiredOn" FROM instrument
    WHERE firm_id = ${firmId}::uuid AND id = ANY(${instrumentIds}::uuid[])
    ORDER BY id FOR NO KEY UPDATE`;
  return { ...(crew ? { crew } : {}), people, instruments };
}

export interface Held {
  crewId: string;
  personIds: string[];
  instrumentIds: string[];
}

export interface Conflict {
  what: "crew" | "person" | "instrument";
  /** Of the crew, person or instrument. */
  id: string;
  name: string;
  visitId: string;
  jobReference: string;
  startsAt: Date;
  endsAt: Date;
}

const CONFLICTS_MOST = 100;

/** Other visits that hold any of it during the hours. */
export async function findConflicts(
  tx: FirmTransaction,
  { crewId, personIds, instrumentIds }: Partial<Held>,
  span: { startsAt: Date; endsAt: Date },
  ownVisitId?: string,
): Promise<Conflict[]> {
  const ids = [...(crewId ? [crewId] : []), ...(personIds ?? []), ...(instrumentIds ?? [])];
  return tx.$queryRaw<Conflict[]>`SELECT
      CASE WHEN b.crew_id IS NOT NULL THEN 'crew' WHEN b.person_id IS NOT NULL THEN 'person'
        ELSE 'instrument' END AS what,
      coalesce(b.crew_id, b.person_id, b.instrument_id) AS id,
      coalesce(c.name, p.name, i.reference || ' ' || i.name) AS name, b.visit_id AS "visitId",
      j.reference AS "jobReference", b.starts_at AS "startsAt", b.ends_at AS "endsAt"
    FROM visit_booking b
    JOIN visit v ON v.firm_id = b.firm_id AND v.id = b.visit_id
    JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id
    LEFT JOIN crew c ON c.firm_id = b.firm_id AND c.id = b.crew_id
    LEFT JOIN person p ON p.firm_id = b.firm_id AND p.id = b.person_id
    LEFT JOIN instrument i ON i.firm_id = b.firm_id AND i.id = b.instrument_id
    WHERE b.firm_id = ${tx.firmId}::uuid
      AND coalesce(b.crew_id, b.person_id, b.instrument_id) = ANY(${ids}::uuid[])
      AND tstzrange(b.starts_at, b.ends_at)
        && tstzrange(${span.startsAt}::timestamptz, ${span.endsAt}::timestamptz)
      AND b.visit_id IS DISTINCT FROM ${ownVisitId ?? null}::uuid
    ORDER BY b.starts_at, what, name LIMIT ${CONFLICTS_MOST}`;
}

/** Replaces what the visit holds. */
export async function holdForVisit(
  tx: FirmTransaction,
  visitId: string,
  { crewId, personIds, instrumentIds }: Held,
  { startsAt, endsAt }: { startsAt: Date; endsAt: Date },
): Promise<void> {
  const { firmId } = tx;
  await tx.visitBooking.deleteMany({ where: { firmId, visitId } });
  const held = [
    { crewId },
    ...personIds.map((personId) => ({ personId })),
    ...instrumentIds.map((instrumentId) => ({ instrumentId })),
  ];
  await tx.visitBooking.createMany({
    data: held.map((what) => ({ firmId, id: uuidv7(), visitId, ...what, startsAt, endsAt })),
  });
}

/** False when the visit was cancelled before; its crew, people and instruments are free again. */
export async function cancelVisit(tx: FirmTransaction, id: string): Promise<boolean> {
  const { firmId } = tx;
  const { count } = await tx.visit.updateMany({
    where: { firmId, id, state: "booked" },
    data: { state: "cancelled", version: { increment: 1 } },
  });
  await tx.visitBooking.deleteMany({ where: { firmId, visitId: id } });
  return count === 1;
}

/** Cancels the job's visits that have not begun; returns their ids. */
export async function cancelVisitsToCome(
  tx: FirmTransaction,
  jobId: string,
  now: Date,
): Promise<string[]> {
  const visits = await tx.visit.findMany({
    where: { firmId: tx.firmId, jobId, state: "booked", startsAt: { gt: now } },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  for (const { id } of visits) await cancelVisit(tx, id);
  return visits.map(({ id }) => id);
}

/** After a change of a crew's people: its visits to come hold those who are in it now. */
export async function rebookCrew(tx: FirmTransaction, crewId: string, now: Date): Promise<void> {
  const { firmId } = tx;
  const { people } = await lockBookable(tx, crewId, []);
  const visits = await tx.visit.findMany({
    where: { firmId, crewId, state: "booked", startsAt: { gt: now } },
    select: { id: true, startsAt: true, endsAt: true },
  });
  await tx.visitBooking.deleteMany({
    where: { firmId, visitId: { in: visits.map(({ id }) => id) }, personId: { not: null } },
  });
  await tx.visitBooking.createMany({
    data: visits.flatMap(({ id: visitId, startsAt, endsAt }) =>
      people.map((person) => ({
        firmId,
        id: uuidv7(),
        visitId,
        personId: person.id,
        startsAt,
        endsAt,
      })),
    ),
  });
}
