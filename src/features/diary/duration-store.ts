import type { FirmTransaction } from "../../db/scope.ts";

export interface TimedRow {
  jobId: string;
  kind: string;
  planId: string;
  ofPlan: number;
  ofKind: number;
  startedAt: Date;
  endedAt: Date;
  activeMs: number;
}

/**
 * Timed stages of the last closed jobs of each plan and of each of these kinds, with the job's rank
 * among those of its plan and of its kind, the newest first.
 */
export async function timedStages(
  tx: FirmTransaction,
  kinds: readonly string[],
  most: number,
): Promise<TimedRow[]> {
  return tx.$queryRaw<TimedRow[]>`
    WITH timed AS (
      SELECT j.id, j.kind, v.plan_id, max(t.ended_at) AS last_at
      FROM stage_time t
      JOIN job j ON j.firm_id = t.firm_id AND j.id = t.job_id AND j.state = 'closed'
      JOIN plan_version v ON v.firm_id = j.firm_id AND v.id = j.plan_version_id
      WHERE t.firm_id = ${tx.firmId}::uuid AND j.kind = ANY(${[...kinds]}::text[])
      GROUP BY j.id, j.kind, v.plan_id
    ), ranked AS (
      SELECT *, row_number() OVER (PARTITION BY plan_id ORDER BY last_at DESC, id) AS of_plan,
        row_number() OVER (PARTITION BY kind ORDER BY last_at DESC, id) AS of_kind
      FROM timed
    )
    SELECT r.id AS "jobId", r.kind, r.plan_id AS "planId", r.of_plan::integer AS "ofPlan",
      r.of_kind::integer AS "ofKind", t.started_at AS "startedAt", t.ended_at AS "endedAt",
      t.active_ms AS "activeMs"
    FROM ranked r
    JOIN stage_time t ON t.firm_id = ${tx.firmId}::uuid AND t.job_id = r.id
    WHERE r.of_plan <= ${most} OR r.of_kind <= ${most}`;
}
