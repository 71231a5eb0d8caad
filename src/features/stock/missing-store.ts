import type { FirmTransaction } from "../../db/scope.ts";

export interface DayVisit {
  visitId: string;
  startsAt: Date;
  timeZone: string;
  crew: string;
  people: number;
  jobId: string;
  reference: string;
  title: string;
  kind: string;
  siteId: string;
  planVersionId: string;
  place: string;
  instrumentIds: string[];
}

/** Booked visits of open jobs on the day of their site's calendar, the earliest first. */
export async function visitsOn(
  tx: FirmTransaction,
  day: string,
  most: number,
): Promise<DayVisit[]> {
  return tx.$queryRaw<DayVisit[]>`SELECT v.id AS "visitId", v.starts_at AS "startsAt",
      s.time_zone AS "timeZone", c.name AS crew, j.id AS "jobId", j.reference, j.title, j.kind,
      j.site_id AS "siteId", j.plan_version_id AS "planVersionId",
      s.address_line || ', ' || s.locality AS place,
      (SELECT count(*)::int FROM visit_booking b WHERE b.firm_id = v.firm_id
        AND b.visit_id = v.id AND b.person_id IS NOT NULL) AS people,
      ARRAY(SELECT b.instrument_id FROM visit_booking b WHERE b.firm_id = v.firm_id
        AND b.visit_id = v.id AND b.instrument_id IS NOT NULL ORDER BY 1) AS "instrumentIds"
    FROM visit v
    JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id AND j.state = 'open'
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN crew c ON c.firm_id = v.firm_id AND c.id = v.crew_id
    WHERE v.firm_id = ${tx.firmId}::uuid AND v.state = 'booked'
      AND v.starts_at > (${day}::date - 2)::timestamp AT TIME ZONE 'UTC'
      AND v.starts_at < (${day}::date + 2)::timestamp AT TIME ZONE 'UTC'
      AND (v.starts_at AT TIME ZONE s.time_zone)::date = ${day}::date
    ORDER BY v.starts_at, v.id LIMIT ${most}`;
}

export interface ForeignUnit {
  jobId: string;
  unitId: string;
  serial: string;
  modelCode: string;
  state: string;
  quarantined: boolean;
}

/** Units of the jobs that are neither sound in stock nor installed at the job's site. */
export async function unitsNotAtHand(
  tx: FirmTransaction,
  jobIds: string[],
): Promise<ForeignUnit[]> {
  return tx.$queryRaw<ForeignUnit[]>`SELECT ju.job_id AS "jobId", u.id AS "unitId", u.serial,
      m.code AS "modelCode", u.state, u.quarantined_at IS NOT NULL AS quarantined
    FROM job_unit ju
    JOIN job j ON j.firm_id = ju.firm_id AND j.id = ju.job_id
    JOIN unit u ON u.firm_id = ju.firm_id AND u.id = ju.unit_id
    JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    WHERE ju.firm_id = ${tx.firmId}::uuid AND ju.job_id = ANY (${jobIds}::uuid[])
      AND NOT (u.state = 'received' AND u.quarantined_at IS NULL)
      AND NOT (u.state = 'installed' AND u.site_id = j.site_id)
    ORDER BY ju.job_id, ju.position`;
}
