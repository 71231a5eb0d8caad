// What the record says of each unit's warranty. A unit counts as commissioned on the day, by its
// site's calendar, on which a job that installs it first closed; where no such job has it, on the
// day it was first installed. Moving to another site starts nothing anew.
import type { FirmTransaction } from "../../db/scope.ts";

export interface FactRow {
  unitId: string;
  serial: string;
  modelCode: string;
  siteId: string | null;
  siteReference: string | null;
  timeZone: string;
  commissionedOn: string | null;
  evidenceComplete: boolean;
  termsId: string | null;
  firmwareReachedOn: string | null;
  registeredOn: string | null;
  reference: string | null;
  note: string | null;
  kwh: number | null;
  kwhOn: string | null;
  lowest: number | null;
  highest: number | null;
}

export interface FactFilter {
  unitId?: string;
  /** Of the installed ones these alone. */
  ids?: readonly string[] | undefined;
  modelId?: string | undefined;
  siteId?: string | undefined;
  after?: string | undefined;
  most: number;
}

const CHOSEN = `
  SELECT u.id, u.serial, u.model_id, u.site_id, u.state FROM unit u
  WHERE u.firm_id = $1::uuid
    AND ($2::uuid IS NULL AND u.state = 'installed' OR u.id = $2::uuid)
    AND ($3::uuid IS NULL OR u.model_id = $3::uuid)
    AND ($4::uuid IS NULL OR u.site_id = $4::uuid)
    AND ($5::uuid IS NULL OR u.id > $5::uuid)
    AND ($7::uuid[] IS NULL OR u.id = ANY ($7::uuid[]))
  ORDER BY u.id LIMIT $6::int`;

const STARTED = `
  SELECT c.*, s.reference AS site_reference, coalesce(w.closed, false) AS closed,
    coalesce(s.time_zone, n.time_zone) AS time_zone,
    (CASE WHEN w.jobs > 0 THEN w.closed_at ELSE i.at END
      AT TIME ZONE coalesce(s.time_zone, n.time_zone))::date AS day
  FROM chosen c JOIN firm n ON n.id = $1::uuid
  LEFT JOIN site s ON s.firm_id = $1::uuid AND s.id = c.site_id
  LEFT JOIN LATERAL (SELECT e.at FROM unit_event e
    WHERE e.firm_id = $1::uuid AND e.unit_id = c.id AND e.kind = 'installed'
    ORDER BY e.at LIMIT 1) i ON true
  LEFT JOIN LATERAL (SELECT count(*) AS jobs, min(o.closed_at) AS closed_at,
      bool_or(j.state = 'closed' AND o.id IS NOT NULL) AS closed
    FROM job_unit k JOIN job j ON j.firm_id = k.firm_id AND j.id = k.job_id
    LEFT JOIN close_out o ON o.firm_id = j.firm_id AND o.job_id = j.id AND o.passed
      AND (i.at IS NULL OR o.closed_at >= i.at)
    WHERE k.firm_id = $1::uuid AND k.unit_id = c.id
      AND j.kind IN ('install', 'swap') AND j.state <> 'cancelled') w ON true`;

/** Units `started`, each with the terms that bind it and what was entered for it. */
const WITH_TERMS = `started c
  JOIN product_model m ON m.firm_id = $1::uuid AND m.id = c.model_id
  LEFT JOIN warranty_registration r ON r.firm_id = $1::uuid AND r.unit_id = c.id
  LEFT JOIN LATERAL (SELECT t.* FROM warranty_terms t
    WHERE t.firm_id = $1::uuid AND t.model_id = c.model_id
      AND t.applies_from <= coalesce(c.day, 'infinity') ORDER BY t.number DESC LIMIT 1) t ON true
  LEFT JOIN LATERAL (SELECT min(g.read_at) AS at FROM firmware_reading g
    WHERE g.firm_id = $1::uuid AND g.unit_id = c.id
      AND g.level_key >= t.firmware_key) f ON true
  LEFT JOIN LATERAL (SELECT h.throughput_kwh, h.read_on FROM warranty_reading h
    WHERE h.firm_id = $1::uuid AND h.unit_id = c.id
      AND h.throughput_kwh IS NOT NULL AND h.read_on >= c.day
    ORDER BY h.read_on DESC LIMIT 1) p ON true
  LEFT JOIN LATERAL (SELECT min(h.temperature_lowest) AS lowest,
      max(h.temperature_highest) AS highest FROM warranty_reading h
    WHERE h.firm_id = $1::uuid AND h.unit_id = c.id AND h.read_on >= c.day) q ON true`;

const FACTS = `WITH chosen AS (${CHOSEN}), started AS (${STARTED})
  SELECT c.id AS "unitId", c.serial, m.code AS "modelCode", c.site_id AS "siteId",
    c.site_reference AS "siteReference", c.time_zone AS "timeZone",
    c.day::text AS "commissionedOn", c.closed AS "evidenceComplete", t.id AS "termsId",
    (f.at AT TIME ZONE c.time_zone)::date::text AS "firmwareReachedOn",
    r.registered_on::text AS "registeredOn", r.reference, r.note,
    p.throughput_kwh AS kwh, p.read_on::text AS "kwhOn", q.lowest, q.highest
  FROM ${WITH_TERMS} ORDER BY c.id`;

/** Installed units in the order of their ids; with `unitId` that unit, wherever it is. */
export async function readFacts(tx: FirmTransaction, filter: FactFilter): Promise<FactRow[]> {
  const { unitId = null, modelId = null, siteId = null, after = null } = filter;
  const values = [tx.firmId, unitId, modelId, siteId, after, filter.most, filter.ids ?? null];
  return tx.$queryRawUnsafe<FactRow[]>(FACTS, ...values);
}

/** The same of every installed unit, as SQL: $1 the firm, $2 the model, $3 the site or null. */
export const EVERY_FACT = `WITH chosen AS (
    SELECT u.id, u.serial, u.model_id, u.site_id, u.state FROM unit u
    WHERE u.firm_id = $1::uuid AND u.state = 'installed'
      AND ($2::uuid IS NULL OR u.model_id = $2::uuid)
      AND ($3::uuid IS NULL OR u.site_id = $3::uuid)), started AS (${STARTED})
  SELECT c.id, c.serial, m.code AS model_code, c.site_id, c.site_reference, c.time_zone, c.day,
    c.closed, t.id AS terms_id, t.years, t.throughput_kwh AS limit_kwh, t.register_within_days,
    t.evidence_needed, t.firmware_within_days, t.temperature_lowest, t.temperature_highest,
    t.end_moves_to_working_day AS end_moves, r.registered_on,
    (f.at AT TIME ZONE c.time_zone)::date AS firmware_on,
    p.throughput_kwh AS kwh, p.read_on AS kwh_on, q.lowest, q.highest
  FROM ${WITH_TERMS}`;
