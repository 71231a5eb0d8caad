// What a packet holds besides the job's record, read in the same round trip.
import type { Query } from "../../db/query.ts";
import type { Statement } from "../../db/scope.ts";
import type { UnitSystem } from "../../domain/quantities/display-unit.ts";
import { INSTRUMENT_COLUMNS } from "../job-record/instrument-store.ts";
import { type InstrumentRow, type JobRecord, readJobRecord } from "../job-record/store.ts";

export interface PlaceRow {
  title: string;
  version: number;
  siteReference: string;
  siteName: string | null;
  customerName: string;
  customerPhone: string | null;
  addressLine: string;
  locality: string;
  postcode: string;
  latitude: number;
  longitude: number;
  planCode: string;
  planNumber: number;
  planSha256: string;
  unitSystem: UnitSystem;
}

export interface PacketVisitRow {
  id: string;
  startsAt: Date;
  endsAt: Date;
  crew: string;
  note: string | null;
}

export interface PacketModelRow {
  code: string;
  name: string;
  switchMap: Record<string, unknown> | null;
}

export interface PacketInstrumentRow extends InstrumentRow {
  name: string;
  booked: boolean;
  answered: boolean;
}

export interface PacketMessageRow {
  id: string;
  number: number;
  text: string;
  personName: string;
  fromTablet: boolean;
  writtenAt: Date;
}

export interface PacketFacts {
  record: JobRecord;
  place: PlaceRow;
  visits: PacketVisitRow[];
  models: PacketModelRow[];
  messages: PacketMessageRow[];
  /** Booked ones first, then those of answers, then others of classes that the plan asks for. */
  instruments: PacketInstrumentRow[];
}

/** Undefined when the firm has no such job. */
export async function readPacketFacts(
  query: Query,
  firmId: string,
  jobId: string,
): Promise<PacketFacts | undefined> {
  const values = [firmId, jobId];
  const [record, rows] = await Promise.all([
    readJobRecord(query, firmId, jobId, { lock: false }),
    query(
      { ...PLACE, values },
      { ...VISITS, values },
      { ...MODELS, values },
      { ...INSTRUMENTS, values },
      { ...MESSAGES, values },
    ),
  ]);
  const [places, visits, models, instruments, messages] = rows as [
    PlaceRow[],
    PacketVisitRow[],
    PacketModelRow[],
    PacketInstrumentRow[],
    PacketMessageRow[],
  ];
  const [place] = places;
  return record && place && { record, place, visits, models, instruments, messages };
}

export async function readPlanDocument(
  query: Query,
  firmId: string,
  planVersionId: string,
): Promise<Record<string, unknown>> {
  const [rows] = (await query({ ...DOCUMENT, values: [firmId, planVersionId] })) as [
    { document: Record<string, unknown> }[],
  ];
  const [row] = rows;
  if (!row) throw new Error(`plan version ${planVersionId} of a job is not there`);
  return row.document;
}

const PLACE: Statement = {
  name: "packet_place",
  text: `SELECT j.title, j.version, s.reference AS "siteReference", s.name AS "siteName",
      c.name AS "customerName", c.phone AS "customerPhone", s.address_line AS "addressLine",
      s.locality, s.postcode, s.latitude, s.longitude, p.code AS "planCode",
      pv.number AS "planNumber", pv.sha256 AS "planSha256", f.unit_system AS "unitSystem"
    FROM job j
    JOIN firm f ON f.id = j.firm_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id
    JOIN plan_version pv ON pv.firm_id = j.firm_id AND pv.id = j.plan_version_id
    JOIN plan p ON p.firm_id = pv.firm_id AND p.id = pv.plan_id
    WHERE j.firm_id = $1::uuid AND j.id = $2::uuid`,
};

/** The last of them, where a job has dragged on. */
const VISITS: Statement = {
  name: "packet_visits",
  text: `SELECT * FROM (
      SELECT v.id, v.starts_at AS "startsAt", v.ends_at AS "endsAt", c.name AS crew, v.note
      FROM visit v JOIN crew c ON c.firm_id = v.firm_id AND c.id = v.crew_id
      WHERE v.firm_id = $1::uuid AND v.job_id = $2::uuid AND v.state = 'booked'
      ORDER BY v.starts_at DESC, v.id DESC LIMIT 20) AS last
    ORDER BY "startsAt", id`,
};

const MODELS: Statement = {
  name: "packet_models",
  text: `SELECT m.code, m.name, m.switch_map AS "switchMap" FROM product_model m
    WHERE m.firm_id = $1::uuid AND m.id IN (
      SELECT u.model_id FROM job_unit ju
      JOIN unit u ON u.firm_id = ju.firm_id AND u.id = ju.unit_id
      WHERE ju.firm_id = $1::uuid AND ju.job_id = $2::uuid)
    ORDER BY m.code`,
};

const MESSAGES: Statement = {
  name: "packet_messages",
  text: `SELECT * FROM (
      SELECT m.id, m.number, m.text, p.name AS "personName",
        m.from_tablet AS "fromTablet", m.written_at AS "writtenAt"
      FROM job_message m JOIN person p ON p.firm_id = m.firm_id AND p.id = m.person_id
      WHERE m.firm_id = $1::uuid AND m.job_id = $2::uuid
      ORDER BY m.number DESC LIMIT 50) AS last
    ORDER BY number`,
};

/** Which of them are in date is for the rules to say, by the site's calendar. */
const INSTRUMENTS: Statement = {
  name: "packet_instruments",
  text: `WITH booked AS (
      SELECT b.instrument_id AS id FROM visit v
      JOIN visit_booking b ON b.firm_id = v.firm_id AND b.visit_id = v.id
      WHERE v.firm_id = $1::uuid AND v.job_id = $2::uuid AND v.state = 'booked'
        AND b.instrument_id IS NOT NULL),
    answered AS (
      SELECT instrument_id AS id FROM answer
      WHERE firm_id = $1::uuid AND job_id = $2::uuid AND instrument_id IS NOT NULL),
    wanted AS (
      SELECT class #>> '{}' AS class FROM job j
      JOIN plan_version pv ON pv.firm_id = j.firm_id AND pv.id = j.plan_version_id,
      LATERAL jsonb_path_query(pv.document, '$.stages[*].items[*].instrument.class') AS class
      WHERE j.firm_id = $1::uuid AND j.id = $2::uuid)
    SELECT * FROM (
      SELECT i.name, i.id IN (SELECT id FROM booked) AS booked,
        i.id IN (SELECT id FROM answered) AS answered, ${INSTRUMENT_COLUMNS}
      FROM instrument i WHERE i.firm_id = $1::uuid AND (
        i.id IN (SELECT id FROM booked) OR i.id IN (SELECT id FROM answered)
        OR i.instrument_class IN (SELECT class FROM wanted))) AS found
    ORDER BY booked DESC, answered DESC, reference, id LIMIT 600`,
};

const DOCUMENT: Statement = {
  name: "packet_document",
  text: "SELECT document FROM plan_version WHERE firm_id = $1::uuid AND id = $2::uuid",
};
