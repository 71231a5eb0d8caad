import type { Query } from "../../db/query.ts";
import type { Statement } from "../../db/scope.ts";

export interface DayVisitRow {
  visitId: string;
  jobId: string;
  reference: string;
  title: string;
  place: string;
  customerName: string;
  startsAt: Date;
  endsAt: Date;
  timeZone: string;
  jobState: "open" | "closed" | "cancelled";
}

/** Visits of the person's crews that may be today's or tomorrow's somewhere on earth. */
export async function visitsNear(
  query: Query,
  firmId: string,
  personId: string,
  now: Date,
): Promise<DayVisitRow[]> {
  const [rows] = await query({ ...NEAR, values: [firmId, personId, now.toISOString()] });
  return rows as DayVisitRow[];
}

const NEAR: Statement = {
  name: "tablet_visits_near",
  text: `SELECT v.id AS "visitId", v.job_id AS "jobId", j.reference, j.title,
      s.address_line || ', ' || s.locality AS place, c.name AS "customerName",
      v.starts_at AS "startsAt", v.ends_at AS "endsAt", s.time_zone AS "timeZone",
      j.state AS "jobState"
    FROM visit v
    JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id
    WHERE v.firm_id = $1::uuid AND v.state = 'booked'
      AND v.starts_at < $3::timestamptz + interval '3 days'
      AND v.ends_at > $3::timestamptz - interval '2 days'
      AND v.crew_id IN (
        SELECT crew_id FROM crew_member WHERE firm_id = $1::uuid AND person_id = $2::uuid)
    ORDER BY v.starts_at, v.id LIMIT 500`,
};
