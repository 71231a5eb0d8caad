import type { FirmTransaction } from "../../db/scope.ts";

export interface DifferenceRow {
  /** The answer that came later, and whose tablet did not know of the others. */
  lateId: string;
  id: string;
  itemId: string;
  subject: string;
  serial: string | null;
  value: unknown;
  outcome: string;
  sentence: string;
  takenAt: string;
  receiptOrder: number;
  personId: string;
  personName: string;
  deviceId: string | null;
  counts: boolean;
}

const ROWS_MOST = 500;

/** Answers to the same item and subject from sources that did not see each other. */
export async function listDifferenceRows(
  tx: FirmTransaction,
  jobId: string,
): Promise<DifferenceRow[]> {
  return tx.$queryRaw<DifferenceRow[]>`
    WITH late AS (
      SELECT o.op_id, o.device_id, o.order_seen, a.item_id, a.subject, a.receipt_order
      FROM tablet_op o JOIN answer a ON a.firm_id = o.firm_id AND a.id = o.op_id
      WHERE o.firm_id = ${tx.firmId}::uuid AND o.job_id = ${jobId}::uuid
        AND (o.differs OR o.decision_reply @> '{"differs": true}'))
    SELECT late.op_id AS "lateId", a.id, a.item_id AS "itemId", a.subject, u.serial, a.value,
      a.outcome, a.verdict ->> 'sentence' AS sentence, a.taken_at_text AS "takenAt",
      a.receipt_order AS "receiptOrder", a.person_id AS "personId", p.name AS "personName",
      source.device_id AS "deviceId",
      a.id = (SELECT l.id FROM answer l WHERE l.firm_id = a.firm_id AND l.job_id = a.job_id
        AND l.item_id = a.item_id AND l.subject = a.subject
        ORDER BY l.taken_at_text::timestamptz DESC, l.receipt_order DESC LIMIT 1) AS counts
    FROM late
    JOIN answer a ON a.firm_id = ${tx.firmId}::uuid AND a.job_id = ${jobId}::uuid
      AND a.item_id = late.item_id AND a.subject = late.subject
    JOIN person p ON p.firm_id = a.firm_id AND p.id = a.person_id
    LEFT JOIN tablet_op source ON source.firm_id = a.firm_id AND source.op_id = a.id
    LEFT JOIN (job_unit ju JOIN unit u ON u.firm_id = ju.firm_id AND u.id = ju.unit_id)
      ON ju.firm_id = a.firm_id AND ju.job_id = a.job_id AND ju.unit_id::text = a.subject
    WHERE a.id = late.op_id OR (a.receipt_order > late.order_seen
      AND a.receipt_order < late.receipt_order AND source.device_id IS DISTINCT FROM late.device_id)
    ORDER BY late.receipt_order, a.receipt_order LIMIT ${ROWS_MOST}`;
}

/** Operations that do not follow from the one before on their tablet. */
export async function listBrokenChains(tx: FirmTransaction, jobId: string) {
  return tx.tabletOp.findMany({
    where: { firmId: tx.firmId, jobId, chainBroken: true },
    select: { opId: true, deviceId: true, deviceSeq: true, receivedAt: true },
    orderBy: { receivedAt: "asc" },
    take: ROWS_MOST,
  });
}
