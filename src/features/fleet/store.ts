// The fleet in figures. Each is one scan of one firm's rows, whatever its size; nothing is counted
// in advance, so no figure can be older than the units it is about.
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { BELOW, EFFECTIVE, joinSite, TARGETS } from "../firmware/due-sql.ts";
import { filterValues } from "../firmware/due-store.ts";

export interface Reached {
  level: string;
  key: bigint;
  week: number;
  units: number;
}

/**
 * For each release of the model, the latest five first, how many of today's installed units were
 * first read at or above its level in each of the weeks before `lastDay`; week 0 is all before.
 */
export async function reachedByWeek(
  tx: FirmTransaction,
  modelId: string,
  { lastDay, weeks }: { lastDay: string; weeks: number },
): Promise<Reached[]> {
  return tx.$queryRaw<Reached[]>`WITH releases AS (
      SELECT level, level_key AS key FROM firmware_release
      WHERE firm_id = ${tx.firmId}::uuid AND model_id = ${modelId}::uuid
      ORDER BY level_key DESC LIMIT 5),
    reached AS (
      SELECT r.level, r.key, g.unit_id, min(g.read_at) AS at
      FROM unit u
      JOIN firmware_reading g ON g.firm_id = u.firm_id AND g.unit_id = u.id
      JOIN releases r ON g.level_key >= r.key
      WHERE u.firm_id = ${tx.firmId}::uuid AND u.model_id = ${modelId}::uuid
        AND u.state = 'installed' AND g.firm_id = ${tx.firmId}::uuid
      GROUP BY 1, 2, 3)
    SELECT r.level, r.key, c.week, count(c.at)::int AS units FROM releases r
    LEFT JOIN LATERAL (SELECT reached.at,
        greatest(0, ${weeks}::int - ((${lastDay}::date - reached.at::date) / 7)) AS week
      FROM reached WHERE reached.key = r.key) c ON true
    GROUP BY 1, 2, 3 HAVING count(c.at) > 0 ORDER BY r.key DESC, c.week`;
}

export interface Exposure {
  severity: "safety" | "important" | "routine";
  term: "over30" | "over" | "week" | "month" | "later";
  units: number;
  sites: number;
}

const dueAt = (tx: FirmTransaction, today: string, text: string, ...more: unknown[]) =>
  transactionQuery(tx)({
    text: `WITH ${TARGETS}, due AS (SELECT site_id, target_id, count(*) AS units
      FROM ${BELOW} b GROUP BY 1, 2) ${text}`,
    values: [...filterValues({ firmId: tx.firmId, filter: {}, today }), ...more],
  });

/** Units below a target that stands, by severity and by how far their day is away. */
export async function exposure(tx: FirmTransaction, today: string): Promise<Exposure[]> {
  const [rows] = await dueAt(
    tx,
    today,
    `SELECT t.severity,
      CASE WHEN t.due_on < $7::date - 30 THEN 'over30' WHEN t.due_on < $7::date THEN 'over'
        WHEN t.due_on < $7::date + 7 THEN 'week' WHEN t.due_on < $7::date + 30 THEN 'month'
        ELSE 'later' END AS term,
      sum(d.units)::int AS units, count(DISTINCT d.site_id)::int AS sites
    FROM due d JOIN targets t ON t.id = d.target_id ${joinSite("d.site_id")}
    WHERE ${EFFECTIVE} GROUP BY 1, 2`,
  );
  return rows as Exposure[];
}

export interface Cell {
  latitude: number;
  longitude: number;
  sites: number;
  due: number;
  overdue: number;
  name: string;
  siteId: string;
}

/**
 * Sites by where they are, at most `across` × `across` groups: a group of one is that site, a
 * larger one stands in the middle of its sites.
 */
export async function sitesByPlace(
  tx: FirmTransaction,
  { today, across }: { today: string; across: number },
): Promise<Cell[]> {
  const [rows] = await dueAt(
    tx,
    today,
    `, standing AS (
      SELECT d.site_id, true AS due, bool_or(t.due_on < $7::date) AS overdue
      FROM due d JOIN targets t ON t.id = d.target_id ${joinSite("d.site_id")}
      WHERE ${EFFECTIVE} GROUP BY 1),
    placed AS (
      SELECT s.id, s.reference, s.latitude, s.longitude, d.due, d.overdue,
        width_bucket(s.latitude, min(s.latitude) OVER (), max(s.latitude) OVER () + 1e-6,
          $9::int) AS row,
        width_bucket(s.longitude, min(s.longitude) OVER (), max(s.longitude) OVER () + 1e-6,
          $9::int) AS col
      FROM site s LEFT JOIN standing d ON d.site_id = s.id
      WHERE s.firm_id = $1::uuid AND s.archived_at IS NULL)
    SELECT avg(latitude) AS latitude, avg(longitude) AS longitude, count(*)::int AS sites,
      count(*) FILTER (WHERE due)::int AS due, count(*) FILTER (WHERE overdue)::int AS overdue,
      min(reference) AS name, (min(id::text))::uuid AS "siteId"
    FROM placed GROUP BY row, col`,
    across,
  );
  return rows as Cell[];
}

export interface SlowSite {
  siteId: string;
  reference: string;
  locality: string;
  units: number;
  dueOn: string;
  daysOver: number;
}

const SLOWEST_MOST = 15;

/** Sites whose day is longest past, those with more units first among equals. */
export async function slowestSites(tx: FirmTransaction, today: string): Promise<SlowSite[]> {
  const [rows] = await dueAt(
    tx,
    today,
    `SELECT s.id AS "siteId", s.reference, s.locality, sum(d.units)::int AS units,
      min(t.due_on)::text AS "dueOn", $7::date - min(t.due_on) AS "daysOver"
    FROM due d JOIN targets t ON t.id = d.target_id ${joinSite("d.site_id")}
    WHERE t.due_on < $7::date AND ${EFFECTIVE}
    GROUP BY 1, 2, 3 ORDER BY "daysOver" DESC, units DESC, s.id LIMIT ${SLOWEST_MOST}`,
  );
  return rows as SlowSite[];
}

export interface UpdateFigures {
  updated: number;
  failed: number;
}

/** Units read at or above a release's level since `from`, and updates that failed since. */
export async function updatesSince(tx: FirmTransaction, from: Date): Promise<UpdateFigures> {
  const [row] = await tx.$queryRaw<UpdateFigures[]>`SELECT
    (SELECT count(DISTINCT (g.unit_id, r.id))::int FROM firmware_reading g
      JOIN unit u ON u.firm_id = g.firm_id AND u.id = g.unit_id
      JOIN firmware_release r ON r.firm_id = g.firm_id AND r.model_id = u.model_id
        AND r.level_key = g.level_key
      WHERE g.firm_id = ${tx.firmId}::uuid AND g.read_at >= ${from}::timestamptz
        AND g.job_id IS NOT NULL) AS updated,
    (SELECT count(*)::int FROM nonconformance n WHERE n.firm_id = ${tx.firmId}::uuid
      AND n.kind = 'firmware-update' AND n.opened_at >= ${from}::timestamptz) AS failed`;
  if (!row) throw new Error("a SELECT without FROM gives one row");
  return row;
}
