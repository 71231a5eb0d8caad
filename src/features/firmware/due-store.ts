// One SQL path to what is due: a comparison of keys through the index (firm, model, key, site).
// Nothing is marked as due anywhere, so moving a target costs one row. A unit without a key is told
// apart, never counted as up to date. Due are units that stand at a site (the database holds: site
// and state "installed" go together) which is not archived, below a target that was not withdrawn.

import type { Query } from "../../db/query.ts";
import type { Statement } from "../../db/scope.ts";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import type { DueFilter } from "./due-schemas.ts";
import { BELOW, EFFECTIVE, FITS, joinSite, TARGETS, UNCLEAR } from "./due-sql.ts";

export interface DueRow {
  siteId: string;
  reference: string;
  addressLine: string;
  locality: string;
  region: string;
  timeZone: string;
  nextVisit: { id: string; jobId: string; jobReference: string; startsAt: string } | null;
  unitId: string;
  serial: string;
  modelCode: string;
  from: string | null;
  hasKey: boolean;
  to: string;
  severity: "safety" | "important" | "routine";
  dueOn: string;
  /** Its ring was stopped after failures. */
  isHeld: boolean;
  /** Where its site stands in a list that is in another order than that of ids. */
  place: string;
}

export interface DueQuestion {
  firmId: string;
  filter: DueFilter;
  /** Plain date in the firm's time zone. */
  today: string;
  now: Date;
}

export interface DuePageRequest {
  after: string | undefined;
  most: number;
}

/** The units of the sites of `page` that are due or unclear, each with the place of its site. */
export const UNITS_OF_PAGE = `SELECT s.id AS "siteId", s.reference, s.address_line AS "addressLine",
    s.locality, s.region,
    s.time_zone AS "timeZone", u.id AS "unitId", u.serial, m.code AS "modelCode",
    u.firmware_level AS "from", u.firmware_key IS NOT NULL AS "hasKey", t.level AS "to", t.severity,
    t.due_on::text AS "dueOn", t.state = 'held' AS "isHeld", next.visit AS "nextVisit",
    p.place
  FROM page p ${joinSite("p.site_id")}
    JOIN unit u ON u.firm_id = $1::uuid AND u.site_id = p.site_id
    JOIN targets t ON t.model_id = u.model_id
    JOIN product_model m ON m.firm_id = $1::uuid AND m.id = u.model_id
    LEFT JOIN LATERAL (
      SELECT jsonb_build_object('id', v.id, 'jobId', j.id, 'jobReference', j.reference,
        'startsAt', v.starts_at) AS visit
      FROM job j JOIN visit v ON v.firm_id = j.firm_id AND v.job_id = j.id
      WHERE j.firm_id = $1::uuid AND j.site_id = p.site_id AND j.kind = 'firmware'
        AND j.state = 'open' AND v.state = 'booked' AND v.ends_at > $11::timestamptz
      ORDER BY v.starts_at LIMIT 1) next ON true
  WHERE (u.firmware_key < t.target_key OR u.firmware_key IS NULL) AND ${FITS} AND ${EFFECTIVE}`;

// Where much is due, the next few units in the order of their sites fill a page at once; where
// little is, the index finds it at once. Neither way alone is quick in both cases, so the second
// runs only when the first has not filled the page.
const UNITS_NEAR = 2000;

/** Sites in the order of their ids, each with all of its units that are due or unclear. */
const PAGE = `WITH ${TARGETS},
  near AS MATERIALIZED (
    SELECT u.site_id, u.model_id, u.firmware_key, u.hardware_revision FROM unit u
    WHERE u.firm_id = $1::uuid AND u.site_id > $9::uuid ORDER BY u.site_id LIMIT ${UNITS_NEAR}),
  first AS MATERIALIZED (
    SELECT DISTINCT u.site_id FROM near u JOIN targets t ON t.model_id = u.model_id
      ${joinSite("u.site_id")}
    WHERE (u.firmware_key < t.target_key OR u.firmware_key IS NULL) AND ${FITS} AND ${EFFECTIVE}
    ORDER BY u.site_id LIMIT $10::int),
  rest AS (
    SELECT DISTINCT d.site_id FROM (
      SELECT * FROM ${BELOW} b WHERE b.site_id > $9::uuid
      UNION ALL SELECT * FROM ${UNCLEAR} b WHERE b.site_id > $9::uuid) d
      JOIN targets t ON t.id = d.target_id ${joinSite("d.site_id")}
    WHERE (SELECT count(*) FROM first) < $10::int AND ${EFFECTIVE}
    ORDER BY d.site_id LIMIT $10::int),
  page AS MATERIALIZED (
    SELECT site_id, '' AS place FROM (SELECT site_id FROM first UNION SELECT site_id FROM rest) b
    ORDER BY site_id LIMIT $10::int)
  ${UNITS_OF_PAGE}
  ORDER BY s.id, u.serial`;

const severityCount = (severity: string): string =>
  `coalesce(sum(b.units) FILTER (WHERE t.severity = '${severity}'), 0)::int AS ${severity}`;

/** Grouped by site before sites are looked at: a site has several units of a model. */
const COUNTS = `WITH ${TARGETS},
  below AS (SELECT site_id, target_id, count(*) AS units FROM ${BELOW} b GROUP BY 1, 2),
  unclear AS (SELECT site_id, target_id, count(*) AS units FROM ${UNCLEAR} b GROUP BY 1, 2)
  SELECT count(DISTINCT b.site_id)::int AS sites, coalesce(sum(b.units), 0)::int AS units,
    coalesce(sum(b.units) FILTER (WHERE t.due_on < $7::date), 0)::int AS overdue,
    ${FIRMWARE_SEVERITIES.map(severityCount).join(", ")},
    (SELECT coalesce(sum(c.units), 0)::int FROM unclear c JOIN targets t ON t.id = c.target_id
      ${joinSite("c.site_id")} WHERE ${EFFECTIVE}) AS unknown
  FROM below b JOIN targets t ON t.id = b.target_id ${joinSite("b.site_id")} WHERE ${EFFECTIVE}`;

// A firm of ten units and one of 200,000 want different plans, and a kept generic plan serves
// neither; compiling a plan takes longer than running it.
export const PLANNED_ANEW: Statement = {
  name: "plan_anew",
  text: `SELECT set_config('plan_cache_mode', 'force_custom_plan', true),
    set_config('jit', 'off', true)`,
};
const BEFORE_ALL = "00000000-0000-0000-0000-000000000000";

/** $1 to $8 of the parts in due-sql.ts. */
export function filterValues({
  firmId,
  filter,
  today,
}: Pick<DueQuestion, "firmId" | "filter" | "today">): unknown[] {
  const { severity, modelId, region, dueBefore, dueFrom, overdue } = filter;
  const optional = [severity, modelId, region, dueBefore, overdue].map((value) => value ?? null);
  return [firmId, ...optional, today, dueFrom ?? null];
}

export async function listDue(
  query: Query,
  question: DueQuestion,
  page: DuePageRequest,
): Promise<DueRow[]> {
  const { after = BEFORE_ALL, most } = page;
  const values = [...filterValues(question), after, most, question.now];
  const [, rows] = await query(PLANNED_ANEW, { text: PAGE, values });
  return rows as DueRow[];
}

export interface DueCountsRow {
  sites: number;
  units: number;
  overdue: number;
  unknown: number;
  safety: number;
  important: number;
  routine: number;
}

export async function countDue(query: Query, question: DueQuestion): Promise<DueCountsRow> {
  const [, rows] = await query(PLANNED_ANEW, { text: COUNTS, values: filterValues(question) });
  return rows?.[0] as DueCountsRow;
}

export async function firmTimeZone(query: Query, firmId: string): Promise<string> {
  const [rows] = await query({
    name: "firm_time_zone",
    text: `SELECT time_zone AS "timeZone" FROM firm WHERE id = $1::uuid`,
    values: [firmId],
  });
  return (rows as { timeZone: string }[])[0]?.timeZone ?? "UTC";
}
