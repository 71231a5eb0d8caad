import { uuidv7 } from "uuidv7";
import type { Query } from "../../db/query.ts";
import type { Statement } from "../../db/scope.ts";
import { NO_OPERATION } from "../../domain/evidence/operation-chain.ts";
import type { IncomingOp } from "./ops-incoming.ts";
import type { OpResult } from "./schemas.ts";

/** A reply as it is stored: the same again but for `repeated`. */
export type StoredReply = Omit<OpResult, "repeated">;

export interface ExistingOp {
  opId: string;
  deviceId: string;
  deviceSeq: number;
  bodySha256: string;
  reply: StoredReply;
}

/** Where an operation meets the row of its device. */
export interface OpPlace {
  lastSeq: number;
  lastHash: string;
  /** Stored operations with its id, or in its place. */
  existing: ExistingOp[];
  /** Null where the firm has none with the id that the operation names. */
  jobId: string | null;
  person: { id: string; name: string; roles: string[] } | null;
}

/** Locks the device before anything else is locked; a new one is entered. */
export async function readPlace(
  query: Query,
  firmId: string,
  { op }: IncomingOp,
  sentBy: { personId: string; at: Date },
): Promise<OpPlace> {
  const { deviceId, deviceSeq, opId, jobId, personId } = op;
  const at = sentBy.at.toISOString();
  const [, devices, existing, known] = (await query(
    { ...ENTER_DEVICE, values: [firmId, deviceId, sentBy.personId, NO_OPERATION, at] },
    { ...LOCK_DEVICE, values: [firmId, deviceId] },
    { ...EXISTING, values: [firmId, opId, deviceId, deviceSeq] },
    { ...KNOWN, values: [firmId, jobId, personId] },
  )) as [unknown, Pick<OpPlace, "lastSeq" | "lastHash">[], ExistingOp[], KnownRow[]];
  const [device] = devices;
  const [row] = known;
  if (!device || !row) throw new Error("a device just entered is not there");
  const { id, name, roles } = row;
  const person = id === null ? null : { id, name: name ?? "", roles: roles ?? [] };
  return { ...device, existing, jobId: row.jobId, person };
}

interface KnownRow {
  jobId: string | null;
  id: string | null;
  name: string | null;
  roles: string[] | null;
}

const ENTER_DEVICE: Statement = {
  name: "tablet_device_enter",
  text: `INSERT INTO tablet_device
      (firm_id, id, person_id, last_hash, first_seen_at, last_seen_at)
    VALUES ($1::uuid, $2::uuid, $3::uuid, $4, $5::timestamptz, $5::timestamptz)
    ON CONFLICT (firm_id, id) DO NOTHING`,
};

const LOCK_DEVICE: Statement = {
  name: "tablet_device_lock",
  text: `SELECT last_seq AS "lastSeq", last_hash AS "lastHash" FROM tablet_device
    WHERE firm_id = $1::uuid AND id = $2::uuid FOR NO KEY UPDATE`,
};

const EXISTING: Statement = {
  name: "tablet_op_existing",
  text: `SELECT op_id AS "opId", device_id AS "deviceId", device_seq AS "deviceSeq",
      body_sha256 AS "bodySha256", reply
    FROM tablet_op WHERE firm_id = $1::uuid
      AND (op_id = $2::uuid OR (device_id = $3::uuid AND device_seq = $4::int))`,
};

const KNOWN: Statement = {
  name: "tablet_op_known",
  text: `SELECT (SELECT id FROM job WHERE firm_id = $1::uuid AND id = $2::uuid) AS "jobId",
      p.id, p.name, p.roles
    FROM (SELECT) one LEFT JOIN person p ON p.firm_id = $1::uuid AND p.id = $3::uuid`,
};

export interface OpRow {
  jobId: string | null;
  personId: string | null;
  sentById: string;
  reply: StoredReply;
  chainBroken: boolean;
  receivedAt: Date;
}

export const opStatement = (
  firmId: string,
  { op, body, sha256 }: IncomingOp,
  row: OpRow,
): Statement => ({
  name: "tablet_op_keep",
  text: `INSERT INTO tablet_op (firm_id, op_id, device_id, device_seq, job_id, person_id,
      sent_by_id, kind, order_seen, photo_sha256, body, body_sha256, outcome, reply, chain_broken,
      differs, received_at)
    VALUES ($1::uuid, $2::uuid, $3::uuid, $4::int, $5::uuid, $6::uuid, $7::uuid,
      $8, $9::int, $10::text[], $11, $12, $13, $14::jsonb, $15::boolean, $16::boolean,
      $17::timestamptz)`,
  values: [
    firmId,
    op.opId,
    op.deviceId,
    op.deviceSeq,
    row.jobId,
    row.personId,
    row.sentById,
    op.payload.kind,
    storedOrder(op.orderSeen),
    op.photoSha256,
    body,
    sha256,
    row.reply.outcome,
    JSON.stringify(row.reply),
    row.chainBroken,
    row.reply.differs ?? false,
    row.receivedAt.toISOString(),
  ],
});

const INTEGER_MOST = 2_147_483_647;
/** No job has so many answers; a tablet that says so saw them all. */
export const storedOrder = (orderSeen: number): number => Math.min(orderSeen, INTEGER_MOST);

/** The device's row goes on from here. */
export const advanceStatement = (
  firmId: string,
  { op, sha256 }: IncomingOp,
  at: Date,
): Statement => ({
  name: "tablet_device_advance",
  text: `UPDATE tablet_device SET last_seq = $3::int, last_hash = $4,
      last_seen_at = greatest(last_seen_at, $5::timestamptz)
    WHERE firm_id = $1::uuid AND id = $2::uuid`,
  values: [firmId, op.deviceId, op.deviceSeq, sha256, at.toISOString()],
});

const QUARANTINE_BYTES_MOST = 65_536;

/**
 * Of one tablet. Whoever sends more learns as before that it was refused, and keeps it: a tablet
 * never throws away what the server did not take.
 */
export const QUARANTINED_MOST = 1000;

/** The same body twice is one row. */
export function quarantineStatement(
  firmId: string,
  { op, body, sha256 }: IncomingOp,
  sent: { sentById: string; why: string; at: Date },
): Statement {
  const bytes = Buffer.from(body);
  let end = Math.min(bytes.length, QUARANTINE_BYTES_MOST);
  // Not in the middle of a character: 10xxxxxx goes on with the one before it (RFC 3629).
  while (end < bytes.length && ((bytes[end] ?? 0) & 0xc0) === 0x80) end -= 1;
  return {
    text: `INSERT INTO tablet_quarantine (firm_id, id, op_id, device_id, device_seq, sent_by_id,
        body, bytes, sha256, why, received_at)
      SELECT $1::uuid, $2::uuid, $3::uuid, $4::uuid, $5::int, $6::uuid,
        $7, $8::int, $9, $10, $11::timestamptz
      WHERE (SELECT count(*) FROM (SELECT FROM tablet_quarantine
        WHERE firm_id = $1::uuid AND device_id = $4::uuid LIMIT $12::int) q) < $12::int
      ON CONFLICT (firm_id, sha256) DO NOTHING`,
    values: [
      firmId,
      uuidv7(),
      op.opId,
      op.deviceId,
      op.deviceSeq,
      sent.sentById,
      bytes.subarray(0, end).toString("utf8"),
      bytes.length,
      sha256,
      sent.why,
      sent.at.toISOString(),
      QUARANTINED_MOST,
    ],
  };
}
