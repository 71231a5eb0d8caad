// All that ever happened at a site, from wherever it is kept, newest first.
import type { FirmTransaction } from "../../db/scope.ts";

export const TIME_LINE_PARTS = [
  "jobs",
  "visits",
  "units",
  "firmware",
  "snags",
  "concessions",
  "nonconformances",
  "inspections",
  "surveys",
  "mails",
  "changes",
] as const;
export type TimeLinePart = (typeof TIME_LINE_PARTS)[number];

export interface TimeLineRow {
  kind: string;
  id: string;
  at: Date;
  facts: Record<string, string | number | null>;
}

const OF_JOB = "job j ON j.firm_id = $1::uuid AND j.site_id = $2::uuid";

/** A SELECT of kind, moment, id and facts each; $1 is the firm and $2 the site. */
const PARTS: Readonly<Record<TimeLinePart, string>> = {
  jobs: `SELECT 'job-opened', j.created_at, j.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'title', j.title)
    FROM job j WHERE j.firm_id = $1::uuid AND j.site_id = $2::uuid
    UNION ALL SELECT 'job-closed', o.closed_at, o.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'who', p.name)
    FROM close_out o JOIN ${OF_JOB} AND o.job_id = j.id
      JOIN person p ON p.firm_id = o.firm_id AND p.id = o.closed_by_id WHERE o.firm_id = $1::uuid
    UNION ALL SELECT 'job-reopened', r.reopened_at, r.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'who', p.name, 'reason', r.reason)
    FROM reopening r JOIN ${OF_JOB} AND r.job_id = j.id
      JOIN person p ON p.firm_id = r.firm_id AND p.id = r.reopened_by_id
    WHERE r.firm_id = $1::uuid`,
  visits: `SELECT CASE v.state WHEN 'booked' THEN 'visit' ELSE 'visit-cancelled' END, v.starts_at,
      v.id, jsonb_build_object('jobId', j.id, 'reference', j.reference, 'crew', c.name)
    FROM visit v JOIN ${OF_JOB} AND v.job_id = j.id
      JOIN crew c ON c.firm_id = v.firm_id AND c.id = v.crew_id WHERE v.firm_id = $1::uuid`,
  units: `SELECT 'unit-' || e.kind, e.at, e.id, jsonb_build_object('unitId', u.id,
      'serial', u.serial, 'model', m.code, 'other', o.serial, 'note', e.note)
    FROM unit_event e JOIN unit u ON u.firm_id = e.firm_id AND u.id = e.unit_id
      JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
      LEFT JOIN unit o ON o.firm_id = e.firm_id AND o.id = e.other_unit_id
    WHERE e.firm_id = $1::uuid AND e.site_id = $2::uuid`,
  firmware: `SELECT 'firmware-read', g.read_at, g.id, jsonb_build_object('unitId', u.id,
      'serial', u.serial, 'level', g.level, 'flag', g.flag)
    FROM firmware_reading g JOIN unit u ON u.firm_id = g.firm_id AND u.id = g.unit_id
    WHERE g.firm_id = $1::uuid AND u.firm_id = $1::uuid AND u.site_id = $2::uuid`,
  snags: `SELECT 'snag-raised', n.raised_at, n.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'title', n.title, 'who', p.name)
    FROM snag n JOIN ${OF_JOB} AND n.job_id = j.id
      JOIN person p ON p.firm_id = n.firm_id AND p.id = n.raised_by_id WHERE n.firm_id = $1::uuid
    UNION ALL SELECT 'snag-mended', n.mended_at, n.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'title', n.title, 'who', p.name)
    FROM snag n JOIN ${OF_JOB} AND n.job_id = j.id
      JOIN person p ON p.firm_id = n.firm_id AND p.id = n.mended_by_id
    WHERE n.firm_id = $1::uuid AND n.mended_at IS NOT NULL`,
  concessions: `SELECT 'concession-granted', k.granted_at, k.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'who', p.name, 'reason', k.reason)
    FROM concession k JOIN ${OF_JOB} AND k.job_id = j.id
      JOIN person p ON p.firm_id = k.firm_id AND p.id = k.granted_by_id
    WHERE k.firm_id = $1::uuid
    UNION ALL SELECT 'concession-revoked', k.revoked_at, k.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'who', p.name)
    FROM concession k JOIN ${OF_JOB} AND k.job_id = j.id
      JOIN person p ON p.firm_id = k.firm_id AND p.id = k.revoked_by_id
    WHERE k.firm_id = $1::uuid AND k.revoked_at IS NOT NULL`,
  nonconformances: `SELECT 'nonconformance-opened', f.opened_at, f.id, jsonb_build_object(
      'nonconformanceId', f.id, 'reference', f.reference, 'title', f.title)
    FROM nonconformance f WHERE f.firm_id = $1::uuid AND f.site_id = $2::uuid
    UNION ALL SELECT 'nonconformance-closed', f.closed_at, f.id, jsonb_build_object(
      'nonconformanceId', f.id, 'reference', f.reference, 'title', f.title)
    FROM nonconformance f WHERE f.firm_id = $1::uuid AND f.site_id = $2::uuid
      AND f.closed_at IS NOT NULL`,
  inspections: `SELECT 'inspection-turn', j.created_at, i.job_id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'title', r.title, 'due', i.due_on)
    FROM recurring_inspection_job i JOIN ${OF_JOB} AND i.job_id = j.id
      JOIN recurring_inspection r ON r.firm_id = i.firm_id AND r.id = i.recurring_id
    WHERE i.firm_id = $1::uuid`,
  surveys: `SELECT 'survey', y.created_at, y.id, jsonb_build_object('number', y.number,
      'who', p.name)
    FROM survey y JOIN person p ON p.firm_id = y.firm_id AND p.id = y.person_id
    WHERE y.firm_id = $1::uuid AND y.site_id = $2::uuid`,
  mails: `SELECT 'mail', coalesce(l.sent_at, l.created_at), l.id, jsonb_build_object('jobId', j.id,
      'reference', j.reference, 'subject', l.subject, 'state', l.state)
    FROM mail l JOIN visit v ON v.firm_id = $1::uuid AND v.id = l.visit_id
      JOIN ${OF_JOB} AND v.job_id = j.id WHERE l.firm_id = $1::uuid`,
  changes: `SELECT 'change', date_trunc('milliseconds', h.at), h.id, jsonb_build_object(
      'who', p.name, 'fields', (SELECT string_agg(name, ',' ORDER BY name)
        FROM jsonb_object_keys(h.after) name))
    FROM change_record h LEFT JOIN person p ON p.firm_id = h.firm_id AND p.id = h.person_id
    WHERE h.firm_id = $1::uuid AND h.subject_id = $2::uuid
    UNION ALL SELECT 'merged', g.created_at, g.id, jsonb_build_object('who', p.name,
      'reference', f.reference)
    FROM record_merge g JOIN person p ON p.firm_id = g.firm_id AND p.id = g.person_id
      JOIN site f ON f.firm_id = g.firm_id AND f.id = g.from_id
    WHERE g.firm_id = $1::uuid AND g.into_id = $2::uuid AND g.kind = 'site'`,
};

export interface TimeLineQuestion {
  siteId: string;
  part?: TimeLinePart | undefined;
  after?: { at: Date; id: string } | undefined;
  most: number;
}

export async function readTimeLine(
  tx: FirmTransaction,
  { siteId, part, after, most }: TimeLineQuestion,
): Promise<TimeLineRow[]> {
  const parts = part ? [PARTS[part]] : TIME_LINE_PARTS.map((name) => PARTS[name]);
  return tx.$queryRawUnsafe<TimeLineRow[]>(
    `SELECT * FROM (${parts.join(" UNION ALL ")}) line (kind, at, id, facts)
     WHERE $3::timestamptz IS NULL OR (at, id) < ($3::timestamptz, $4::uuid)
     ORDER BY at DESC, id DESC LIMIT $5::int`,
    tx.firmId,
    siteId,
    after?.at ?? null,
    after?.id ?? null,
    most,
  );
}
