// The life of a unit, apart from the unit itself: that alone is the most read address of a fleet,
// and the history would cost it half its speed.
import type { FirmPipeline } from "../../db/scope.ts";
import { UNIT_COLUMNS, UNIT_SOURCE, type UnitRow } from "./store.ts";

export interface UnitEventRow {
  id: string;
  kind: string;
  at: string;
  siteId: string | null;
  siteReference: string | null;
  jobId: string | null;
  jobReference: string | null;
  personId: string | null;
  personName: string | null;
  otherUnitId: string | null;
  otherSerial: string | null;
  note: string | null;
}

export interface FirmwareReadingRow {
  id: string;
  level: string;
  readAt: string;
  source: string;
  jobId: string | null;
  personId: string | null;
  flag: string | null;
}

export interface SwapRow {
  unitId: string;
  serial: string;
  state: string;
  at: string;
}

export interface UnitLifeRow extends UnitRow {
  events: UnitEventRow[];
  firmwareReadings: FirmwareReadingRow[];
  replaces: SwapRow[];
  replacedBy: SwapRow[];
}

const EVENTS = `SELECT coalesce(json_agg(json_build_object('id', e.id, 'kind', e.kind, 'at', e.at,
    'siteId', e.site_id, 'siteReference', es.reference,
    'jobId', e.job_id, 'jobReference', j.reference,
    'personId', e.person_id, 'personName', p.name,
    'otherUnitId', e.other_unit_id, 'otherSerial', o.serial,
    'note', e.note) ORDER BY e.at, e.id), '[]')
  FROM (SELECT * FROM unit_event WHERE firm_id = $1 AND unit_id = $2
        ORDER BY at DESC, id DESC LIMIT $3) e
  LEFT JOIN site es ON es.firm_id = e.firm_id AND es.id = e.site_id
  LEFT JOIN job j ON j.firm_id = e.firm_id AND j.id = e.job_id
  LEFT JOIN person p ON p.firm_id = e.firm_id AND p.id = e.person_id
  LEFT JOIN unit o ON o.firm_id = e.firm_id AND o.id = e.other_unit_id`;

const READINGS = `SELECT coalesce(json_agg(json_build_object('id', r.id, 'level', r.level,
    'readAt', r.read_at, 'source', r.source, 'jobId', r.job_id, 'personId', r.person_id,
    'flag', r.flag) ORDER BY r.read_at, r.id), '[]')
  FROM (SELECT * FROM firmware_reading WHERE firm_id = $1 AND unit_id = $2
        ORDER BY read_at DESC, id DESC LIMIT $3) r`;

/**
 * Follows the swaps from unit to unit through the events, which a later use of either unit does not
 * change. A repaired unit may come back into its own chain: times go one way and end the walk.
 */
const swaps = (kind: "installed" | "swapped", direction: "<=" | ">="): string => `
  WITH RECURSIVE chain AS (
    SELECT e.other_unit_id AS id, e.at, 1 AS steps, ARRAY[e.unit_id] AS seen
      FROM unit_event e
      WHERE e.firm_id = $1 AND e.unit_id = $2 AND e.kind = '${kind}' AND e.other_unit_id IS NOT NULL
    UNION ALL
    SELECT e.other_unit_id, e.at, c.steps + 1, c.seen || e.unit_id
      FROM chain c JOIN unit_event e ON e.firm_id = $1 AND e.unit_id = c.id AND e.kind = '${kind}'
        AND e.other_unit_id IS NOT NULL AND e.at ${direction} c.at
      WHERE c.steps < $3 AND c.id <> ALL (c.seen)
  )
  SELECT coalesce(json_agg(json_build_object('unitId', c.id, 'serial', o.serial, 'state', o.state,
      'at', c.at) ORDER BY c.steps, c.at), '[]')
    FROM chain c JOIN unit o ON o.firm_id = $1 AND o.id = c.id`;

const LIFE = `SELECT ${UNIT_COLUMNS}, (${EVENTS}) AS events, (${READINGS}) AS "firmwareReadings",
    (${swaps("installed", "<=")}) AS replaces, (${swaps("swapped", ">=")}) AS "replacedBy"
  FROM ${UNIT_SOURCE} WHERE u.firm_id = $1 AND u.id = $2`;

/** @param most the newest so many events and readings, and so many swaps either way */
export async function readUnitLife(
  pipeline: FirmPipeline,
  id: string,
  most: number,
): Promise<UnitLifeRow | undefined> {
  const [result] = await pipeline.commit({
    name: "unit_life",
    text: LIFE,
    values: [pipeline.firmId, id, most],
  });
  return result?.rows[0] as UnitLifeRow | undefined;
}
