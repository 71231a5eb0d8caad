// Everything that the verdicts and the gate of one job rest on, read together under the job's lock,
// so that what was judged is what was stored.
import type { Query } from "../../db/query.ts";
import type { Statement } from "../../db/scope.ts";
import { INSTRUMENT_COLUMNS, type InstrumentRow, LOCKED_TOOLS } from "./instrument-store.ts";

export type { InstrumentRow } from "./instrument-store.ts";

export interface JobRow {
  id: string;
  reference: string;
  kind: string;
  state: "open" | "closed" | "cancelled";
  planVersionId: string;
  siteId: string;
  supply: string;
  region: string;
  country: string;
  timeZone: string;
}

export interface UnitRow {
  id: string;
  serial: string;
  kind: string;
  modelCode: string;
  modelId: string;
  hardwareRevision: string | null;
  position: number;
  attributes: Record<string, string | number | boolean>;
  serialMask: string;
  serialCheck: string;
  firmwareScheme: string;
}

export interface AnswerRow {
  id: string;
  itemId: string;
  subject: string;
  value: unknown;
  instrumentId: string | null;
  note: string | null;
  photos: string[];
  takenAt: string;
  personId: string;
  receiptOrder: number;
  bodySha256: string;
  outcome: string;
  clears: boolean;
  verdict: unknown;
}

export interface ConcessionRow {
  id: string;
  itemId: string;
  subject: string;
  grantedBy: string;
  expiresOn: string | null;
  revoked: boolean;
}

export interface JobRecord {
  job: JobRow;
  units: UnitRow[];
  answers: AnswerRow[];
  instruments: InstrumentRow[];
  /** Receipt order of the job's last answer, whether it was read or not. */
  lastOrder: number;
  concessions: ConcessionRow[];
  photos: string[];
}

export interface RecordOptions {
  /** Lock the job, so that what is written on the strength of the record is judged alone. */
  lock: boolean;
  /** Instruments to read besides those of the kept answers. */
  instrumentIds?: string[];
  /** Read the answers to these items only; all of them if left out. */
  itemIds?: string[];
}

/** Undefined when the firm has no such job. */
export async function readJobRecord(
  query: Query,
  firmId: string,
  jobId: string,
  options: RecordOptions,
): Promise<JobRecord | undefined> {
  const { lock, instrumentIds = [], itemIds = null } = options;
  const values = [firmId, jobId];
  const locked = lock && instrumentIds.length > 0;
  const [jobs, units, answers, instruments, rest] = (await query(
    { ...(lock ? LOCKED_JOB : JOB), values },
    { ...UNITS, values },
    { ...ANSWERS, values: [...values, itemIds] },
    ...(locked ? [{ ...LOCKED_TOOLS, values: [firmId, instrumentIds] }] : []),
    { ...INSTRUMENTS, values: [...values, itemIds, instrumentIds] },
    { ...REST, values },
  ).then((rows) => (locked ? rows.toSpliced(3, 1) : rows))) as [
    JobRow[],
    UnitRow[],
    AnswerRow[],
    InstrumentRow[],
    RestRow[],
  ];
  const [job] = jobs;
  const [others] = rest;
  return job && others && { job, units, answers, instruments, ...others };
}

type RestRow = Pick<JobRecord, "lastOrder" | "concessions" | "photos">;

const JOB: Statement = {
  name: "job_record_job",
  text: `SELECT j.id, j.reference, j.kind, j.state, j.plan_version_id AS "planVersionId",
      j.site_id AS "siteId", s.supply, s.region, s.country, s.time_zone AS "timeZone"
    FROM job j JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    WHERE j.firm_id = $1::uuid AND j.id = $2::uuid`,
};

const LOCKED_JOB: Statement = {
  name: "job_record_locked_job",
  text: `${JOB.text} FOR NO KEY UPDATE OF j`,
};

const UNITS: Statement = {
  name: "job_record_units",
  text: `SELECT u.id, u.serial, m.kind, m.code AS "modelCode", m.id AS "modelId",
      u.hardware_revision AS "hardwareRevision", ju.position, m.attributes,
      m.serial_mask AS "serialMask", m.serial_check AS "serialCheck",
      m.firmware_scheme AS "firmwareScheme"
    FROM job_unit ju
    JOIN unit u ON u.firm_id = ju.firm_id AND u.id = ju.unit_id
    JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    WHERE ju.firm_id = $1::uuid AND ju.job_id = $2::uuid ORDER BY ju.position`,
};

const ANSWERS: Statement = {
  name: "job_record_answers",
  text: `SELECT id, item_id AS "itemId", subject, value, instrument_id AS "instrumentId", note,
      photos, taken_at_text AS "takenAt", person_id AS "personId", receipt_order AS "receiptOrder",
      body_sha256 AS "bodySha256", outcome, clears, verdict
    FROM answer WHERE firm_id = $1::uuid AND job_id = $2::uuid
      AND ($3::text[] IS NULL OR item_id = ANY($3::text[])) ORDER BY receipt_order`,
};

const INSTRUMENTS: Statement = {
  name: "job_record_instruments",
  text: `SELECT ${INSTRUMENT_COLUMNS}
    FROM instrument i WHERE i.firm_id = $1::uuid AND (i.id = ANY($4::uuid[]) OR i.id IN (
      SELECT instrument_id FROM answer WHERE firm_id = $1::uuid AND job_id = $2::uuid
        AND ($3::text[] IS NULL OR item_id = ANY($3::text[]))))`,
};

/** What is mostly empty or one number travels in one row. */
const REST: Statement = {
  name: "job_record_rest",
  text: `SELECT
      (SELECT coalesce(max(receipt_order), 0) FROM answer
        WHERE firm_id = $1::uuid AND job_id = $2::uuid) AS "lastOrder",
      (SELECT coalesce(json_agg(json_build_object('id', id, 'itemId', item_id, 'subject', subject,
          'grantedBy', granted_by_id, 'expiresOn', expires_on, 'revoked', revoked_at IS NOT NULL)
          ORDER BY granted_at, id), '[]')
        FROM concession WHERE firm_id = $1::uuid AND job_id = $2::uuid) AS concessions,
      ARRAY(SELECT sha256 FROM photo
        WHERE firm_id = $1::uuid AND job_id = $2::uuid ORDER BY sha256) AS photos`,
};
