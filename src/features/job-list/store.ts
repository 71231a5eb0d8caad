import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export interface ListedJob {
  id: string;
  reference: string;
  title: string;
  kind: string;
  state: string;
  customer: string;
  address: string;
  timeZone: string;
  createdAt: Date;
  crew: string | null;
  visitAt: Date | null;
  openSnags: number;
  /** What the list is sorted by, as text that sorts the same. */
  place: string;
}

export interface ListFilter {
  state?: string | undefined;
  kind?: string | undefined;
  crewId?: string | undefined;
  text?: string | undefined;
}

export const JOB_COLUMNS = ["opened", "reference", "kind", "customer", "visit"] as const;

const MOMENT = `'YYYY-MM-DD"T"HH24:MI:SS.MS'`;
/** A job without a visit comes after those that have one. */
const PLACES: Readonly<Record<string, string>> = {
  opened: `to_char(j.created_at AT TIME ZONE 'UTC', ${MOMENT})`,
  reference: "j.reference",
  kind: "j.kind",
  customer: "lower(c.name)",
  visit: `coalesce(to_char(visit.starts_at AT TIME ZONE 'UTC', ${MOMENT}), '9999')`,
};

/** The next booked visit that has not ended, or the last one. */
export async function listJobRows(
  tx: FirmTransaction,
  filter: ListFilter,
  { column, descending, after }: Sorting,
  most: number,
  now: Date,
): Promise<ListedJob[]> {
  const direction = Prisma.raw(descending ? "DESC" : "ASC");
  const place = Prisma.raw(`(${PLACES[column] ?? PLACES.opened}) COLLATE "C"`);
  const beyond = Prisma.raw(descending ? "<" : ">");
  const start = after
    ? Prisma.sql`WHERE (f.place, f.id) ${beyond} (${after.text} COLLATE "C", ${after.id}::uuid)`
    : Prisma.empty;
  return tx.$queryRaw<
    ListedJob[]
  >`SELECT * FROM (SELECT j.id, j.reference, j.title, j.kind, j.state,
      c.name AS customer, s.address_line || ', ' || s.locality AS address,
      s.time_zone AS "timeZone", j.created_at AS "createdAt", visit.crew,
      visit.starts_at AS "visitAt", ${place} AS place,
      (SELECT count(*)::int FROM snag n WHERE n.firm_id = j.firm_id AND n.job_id = j.id
        AND n.state = 'open') AS "openSnags"
    FROM job j
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id
    LEFT JOIN LATERAL (SELECT v.starts_at, w.name AS crew FROM visit v
      JOIN crew w ON w.firm_id = v.firm_id AND w.id = v.crew_id
      WHERE v.firm_id = j.firm_id AND v.job_id = j.id AND v.state = 'booked'
      ORDER BY v.ends_at <= ${now}::timestamptz,
        CASE WHEN v.ends_at > ${now}::timestamptz THEN v.starts_at END, v.starts_at DESC
      LIMIT 1) visit ON true
    WHERE j.firm_id = ${tx.firmId}::uuid AND ${conditions(filter)}) f
    ${start} ORDER BY f.place ${direction}, f.id ${direction} LIMIT ${most}`;
}

function conditions({ state, kind, crewId, text }: ListFilter): Prisma.Sql {
  const all = [
    Prisma.sql`true`,
    ...(state ? [Prisma.sql`j.state = ${state}`] : []),
    ...(kind ? [Prisma.sql`j.kind = ${kind}`] : []),
    ...(crewId
      ? [
          Prisma.sql`EXISTS (SELECT FROM visit v WHERE v.firm_id = j.firm_id AND v.job_id = j.id
            AND v.state = 'booked' AND v.crew_id = ${crewId}::uuid)`,
        ]
      : []),
    ...(text
      ? [
          Prisma.sql`position(lower(${text}) IN lower(concat_ws(' ', j.reference, j.title, c.name,
            s.reference, s.address_line, s.locality, s.postcode))) > 0`,
        ]
      : []),
  ];
  return Prisma.join(all, " AND ");
}
