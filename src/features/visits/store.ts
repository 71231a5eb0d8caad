import { uuidv7 } from "uuidv7";
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export interface VisitFields {
  crewId: string;
  startsAt: Date;
  endsAt: Date;
  note?: string | null;
}

export interface VisitFilter {
  /** First and last day, each by the calendar of the visit's site. */
  from?: string;
  to?: string;
  crewId?: string;
  personId?: string;
  jobId?: string;
  state: "booked" | "cancelled";
  after?: { startsAt: Date; id: string };
  most: number;
}

const WITH_ALL = {
  job: { include: { site: true } },
  crew: { select: { id: true, name: true } },
  bookings: {
    include: {
      person: { select: { id: true, name: true } },
      instrument: {
        include: {
          calibrations: {
            where: { passed: true },
            orderBy: [{ calibratedOn: "desc" }, { id: "desc" }],
            take: 1,
          },
        },
      },
    },
    orderBy: { id: "asc" },
  },
} as const satisfies Prisma.VisitInclude;

export async function findVisit(tx: FirmTransaction, id: string) {
  return tx.visit.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_ALL,
  });
}

export type VisitRow = NonNullable<Awaited<ReturnType<typeof findVisit>>>;

/** Visits in the order of the diary. */
export async function listVisits(tx: FirmTransaction, filter: VisitFilter): Promise<VisitRow[]> {
  const { crewId, personId, jobId, state, after } = filter;
  const rows = await tx.$queryRaw<{ id: string }[]>`SELECT v.id FROM visit v
    JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    WHERE v.firm_id = ${tx.firmId}::uuid AND v.state = ${state} AND ${onLocalDays(filter)}
      ${crewId ? Prisma.sql`AND v.crew_id = ${crewId}::uuid` : Prisma.empty}
      ${jobId ? Prisma.sql`AND v.job_id = ${jobId}::uuid` : Prisma.empty}
      ${personId ? isBookedFor(personId) : Prisma.empty}
      ${after ? isAfter(after) : Prisma.empty}
    ORDER BY v.starts_at, v.id LIMIT ${filter.most}`;
  const visits = await tx.visit.findMany({
    where: { firmId: tx.firmId, id: { in: rows.map(({ id }) => id) } },
    include: WITH_ALL,
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
  });
  return visits;
}

const isBookedFor = (personId: string) => Prisma.sql`AND EXISTS (
  SELECT FROM visit_booking b WHERE b.firm_id = v.firm_id AND b.visit_id = v.id
    AND b.person_id = ${personId}::uuid)`;

const isAfter = ({ startsAt, id }: { startsAt: Date; id: string }) =>
  Prisma.sql`AND (v.starts_at, v.id) > (${startsAt}::timestamptz, ${id}::uuid)`;

/** The outer bounds hold in every time zone and let the index on starts_at do the work. */
function onLocalDays({ from, to }: { from?: string; to?: string }): Prisma.Sql {
  const start = from
    ? Prisma.sql`((v.ends_at - interval '1 ms') AT TIME ZONE s.time_zone)::date >= ${from}::date
        AND v.starts_at > (${from}::date - 2)::timestamp AT TIME ZONE 'UTC'`
    : Prisma.sql`true`;
  const end = to
    ? Prisma.sql`(v.starts_at AT TIME ZONE s.time_zone)::date <= ${to}::date
        AND v.starts_at < (${to}::date + 2)::timestamp AT TIME ZONE 'UTC'`
    : Prisma.sql`true`;
  return Prisma.sql`${start} AND ${end}`;
}

/** Jobs with a booked visit, of the crew if one is named, on the day of their site's calendar. */
export async function jobsVisitedOn(
  tx: FirmTransaction,
  day: string,
  crewId?: string,
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`SELECT DISTINCT v.job_id AS id FROM visit v
    JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    WHERE v.firm_id = ${tx.firmId}::uuid AND v.state = 'booked'
      AND ${onLocalDays({ from: day, to: day })}
      ${crewId ? Prisma.sql`AND v.crew_id = ${crewId}::uuid` : Prisma.empty}`;
  return rows.map(({ id }) => id);
}

export async function addVisit(
  tx: FirmTransaction,
  jobId: string,
  fields: VisitFields,
): Promise<string> {
  const { id } = await tx.visit.create({
    data: { firmId: tx.firmId, id: uuidv7(), jobId, ...fields },
    select: { id: true },
  });
  return id;
}

/** False when the row has another version by now, or is cancelled. */
export async function editVisit(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<VisitFields>,
): Promise<boolean> {
  const { count } = await tx.visit.updateMany({
    where: { firmId: tx.firmId, id, version, state: "booked" },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

/** What the crew is booked for from now on: the kind of job, and the day at its site. */
export async function worksToCome(
  tx: FirmTransaction,
  crewId: string,
  now: Date,
): Promise<{ jobKind: string; day: string }[]> {
  return tx.$queryRaw`SELECT DISTINCT j.kind AS "jobKind",
      (v.starts_at AT TIME ZONE s.time_zone)::date::text AS day
    FROM visit v
    JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    WHERE v.firm_id = ${tx.firmId}::uuid AND v.crew_id = ${crewId}::uuid AND v.state = 'booked'
      AND v.starts_at > ${now}::timestamptz
    ORDER BY day, "jobKind"`;
}
