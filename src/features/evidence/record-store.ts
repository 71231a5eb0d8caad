// Everything that an evidence bag states about a job, read in the transaction that records the
// export, under the job's lock. Times and dates come as texts, so that they are written one way.
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type {
  AnswerRecord,
  CloseOutRecord,
  ConcessionRecord,
  PhotoRecord,
} from "../../domain/evidence/bag-record.ts";

export interface StoredRecord {
  job: Record<string, unknown> & { reference: string; firmName: string; planVersionId: string };
  plan: unknown;
  units: object[];
  instruments: { id: string; reference: string }[];
  people: object[];
  answers: AnswerRecord[];
  concessions: ConcessionRecord[];
  photos: PhotoRecord[];
  closeOuts: CloseOutRecord[];
  reopenings: object[];
  snags: object[];
  passports: object[];
}

/** Undefined when the firm has no such job. */
export async function readStoredRecord(
  tx: FirmTransaction,
  jobId: string,
): Promise<StoredRecord | undefined> {
  const query = transactionQuery(tx);
  const parts: Record<string, unknown[]> = {};
  const values = [tx.firmId, jobId];
  for (const [name, text] of Object.entries(QUERIES)) {
    const [rows] = await query({ text, values });
    parts[name] = rows as unknown[];
  }
  const [job] = parts.job as (StoredRecord["job"] & { plan: unknown })[];
  if (!job) return undefined;
  const { plan, ...rest } = job;
  return { ...parts, job: rest, plan } as unknown as StoredRecord;
}

const time = (column: string, name: string): string =>
  `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "${name}"`;

const OWN = "firm_id = $1::uuid AND job_id = $2::uuid";

const QUERIES = {
  job: `SELECT j.id, j.reference, j.kind, j.title, j.state, ${time("j.created_at", "openedAt")},
      f.id AS "firmId", f.name AS "firmName", p.code AS "planCode", v.number AS "planNumber",
      v.id AS "planVersionId", v.sha256 AS "planSha256", v.document AS plan,
      s.id AS "siteId", s.reference AS "siteReference", s.address_line AS "addressLine",
      s.locality, s.postcode, s.country, s.region, s.supply, s.time_zone AS "timeZone",
      s.latitude, s.longitude
    FROM job j JOIN firm f ON f.id = j.firm_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN plan_version v ON v.firm_id = j.firm_id AND v.id = j.plan_version_id
    JOIN plan p ON p.firm_id = j.firm_id AND p.id = v.plan_id
    WHERE j.firm_id = $1::uuid AND j.id = $2::uuid`,
  units: `SELECT u.id, u.serial, ju.position, u.hardware_revision AS "hardwareRevision",
      m.code AS "modelCode", m.name AS "modelName", m.maker, m.kind, m.attributes,
      u.bank_position AS "bankPosition", u.replaces_unit_id AS "replacesUnitId",
      coalesce((SELECT json_agg(json_build_object('level', r.level, 'readAt',
          to_char(r.read_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'),
          'source', r.source, 'flag', r.flag) ORDER BY r.read_at, r.id) FROM firmware_reading r
        WHERE r.firm_id = u.firm_id AND r.unit_id = u.id AND r.job_id = ju.job_id), '[]')
        AS "firmwareReadings"
    FROM job_unit ju JOIN unit u ON u.firm_id = ju.firm_id AND u.id = ju.unit_id
    JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    WHERE ju.firm_id = $1::uuid AND ju.job_id = $2::uuid ORDER BY ju.position`,
  instruments: `SELECT i.id, i.reference, i.name, i.instrument_class AS class, i.serial, i.accuracy,
      i.range_max AS "rangeMax", i.resolution, i.interval_months AS "intervalMonths",
      i.interval_cycles AS "intervalCycles", i.retired_on::text AS "retiredOn",
      coalesce((SELECT json_agg(json_build_object('on', c.calibrated_on, 'due', c.due_on,
          'passed', c.passed, 'certificate', c.certificate) ORDER BY c.calibrated_on, c.id)
        FROM calibration c WHERE c.firm_id = i.firm_id AND c.instrument_id = i.id), '[]')
        AS calibrations,
      coalesce((SELECT json_agg(json_build_object('kind', e.kind, 'at', e.at_text)
          ORDER BY e.at, e.id) FROM instrument_event e WHERE e.firm_id = i.firm_id
          AND e.instrument_id = i.id AND e.kind NOT IN ('used', 'note')), '[]') AS events
    FROM instrument i WHERE i.firm_id = $1::uuid AND i.id IN (
      SELECT instrument_id FROM answer WHERE ${OWN}) ORDER BY i.id`,
  people: `SELECT id, name FROM person WHERE firm_id = $1::uuid AND id IN (
      SELECT person_id FROM answer WHERE ${OWN}
      UNION SELECT person_id FROM photo WHERE ${OWN}
      UNION SELECT granted_by_id FROM concession WHERE ${OWN}
      UNION SELECT revoked_by_id FROM concession WHERE ${OWN}
      UNION SELECT closed_by_id FROM close_out WHERE ${OWN}
      UNION SELECT reopened_by_id FROM reopening WHERE ${OWN}) ORDER BY id`,
  answers: `SELECT id, item_id AS "itemId", subject, value, instrument_id AS "instrumentId", note,
      photos, taken_at_text AS "takenAt", ${time("received_at", "receivedAt")},
      person_id AS "personId", receipt_order AS "receiptOrder", body_sha256 AS "bodySha256", verdict
    FROM answer WHERE ${OWN} ORDER BY receipt_order`,
  concessions: `SELECT id, item_id AS "itemId", subject, reason, granted_by_id AS "grantedById",
      ${time("granted_at", "grantedAt")}, expires_on::text AS "expiresOn",
      ${time("revoked_at", "revokedAt")}, revoked_by_id AS "revokedById"
    FROM concession WHERE ${OWN} ORDER BY id`,
  photos: `SELECT sha256, media_type AS "mediaType", bytes, width_px AS "widthPx",
      height_px AS "heightPx", item_id AS "itemId", subject, person_id AS "personId",
      ${time("received_at", "receivedAt")}
    FROM photo WHERE ${OWN} ORDER BY sha256`,
  closeOuts: `SELECT id, rule_version AS "ruleVersion", answers_through AS "answersThrough",
      ledger_seq AS "ledgerSeq", ledger_sha256 AS "ledgerSha256", closed_by_id AS "closedById",
      ${time("closed_at", "closedAt")}, facts FROM close_out WHERE ${OWN} ORDER BY ledger_seq`,
  reopenings: `SELECT id, close_out_id AS "closeOutId", reason, reopened_by_id AS "reopenedById",
      ${time("reopened_at", "reopenedAt")}, ledger_seq AS "ledgerSeq"
    FROM reopening WHERE ${OWN} ORDER BY ledger_seq`,
  // Off the ledger itself, so that the record states what the ledger of the same extent does.
  passports: `SELECT DISTINCT ON (e.body ->> 'unitId') e.body ->> 'unitId' AS "unitId",
      e.body ->> 'uri' AS uri, e.body -> 'values' AS values, e.at AS "keptAt",
      e.seq AS "ledgerSeq"
    FROM (SELECT seq, at, text::jsonb -> 'body' AS body FROM ledger_entry
      WHERE ${OWN} AND kind = 'battery-passport.kept') e
    ORDER BY e.body ->> 'unitId', e.seq DESC`,
  snags: `SELECT id, title, detail, state, ${time("raised_at", "raisedAt")},
      ${time("mended_at", "mendedAt")} FROM snag WHERE ${OWN} ORDER BY id`,
} as const;
