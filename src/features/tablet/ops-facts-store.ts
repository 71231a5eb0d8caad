import type { Statement } from "../../db/scope.ts";
import { storedOrder } from "./ops-store.ts";
import type { TabletOp } from "./schemas.ts";

/** An answer to the same that this tablet did not know, from another tablet or from the office. */
export const unseenStatement = (
  firmId: string,
  op: TabletOp,
  answered: { itemId: string; subject: string },
): Statement => ({
  name: "tablet_op_unseen",
  text: `SELECT a.id FROM answer a
    WHERE a.firm_id = $1::uuid AND a.job_id = $2::uuid AND a.item_id = $3 AND a.subject = $4
      AND a.receipt_order > $5::int AND NOT EXISTS (SELECT FROM tablet_op o
        WHERE o.firm_id = a.firm_id AND o.op_id = a.id AND o.device_id = $6::uuid)
    LIMIT 1`,
  values: [
    firmId,
    op.jobId,
    answered.itemId,
    answered.subject,
    storedOrder(op.orderSeen),
    op.deviceId,
  ],
});

export interface StageTime {
  stageId: string;
  startedAt: string;
  endedAt: string;
  activeMs: number;
}

export const stageTimeStatement = (firmId: string, op: TabletOp, time: StageTime): Statement => ({
  name: "stage_time_keep",
  text: `INSERT INTO stage_time (firm_id, op_id, job_id, stage_id, started_at, ended_at, active_ms,
      person_id, device_id)
    VALUES ($1::uuid, $2::uuid, $3::uuid, $4, $5::timestamptz, $6::timestamptz, $7::int, $8::uuid,
      $9::uuid)`,
  values: [
    firmId,
    op.opId,
    op.jobId,
    time.stageId,
    time.startedAt,
    time.endedAt,
    time.activeMs,
    op.personId,
    op.deviceId,
  ],
});
