import type { FirmTransaction } from "../../db/scope.ts";

/**
 * The job that put the unit into service: a closed one before an open one, the earliest first. What
 * happens to the unit's warranty stands on its ledger. Undefined where the unit came without a job.
 */
export async function jobOfUnit(tx: FirmTransaction, unitId: string): Promise<string | undefined> {
  const [row] = await tx.$queryRaw<{ id: string }[]>`
    SELECT j.id FROM job j
    WHERE j.firm_id = ${tx.firmId}::uuid AND j.state <> 'cancelled'
      AND j.id IN (
        SELECT k.job_id FROM job_unit k JOIN job o ON o.firm_id = k.firm_id AND o.id = k.job_id
        WHERE k.firm_id = ${tx.firmId}::uuid AND k.unit_id = ${unitId}::uuid
          AND o.kind IN ('install', 'swap')
        UNION ALL
        SELECT e.job_id FROM unit_event e
        WHERE e.firm_id = ${tx.firmId}::uuid AND e.unit_id = ${unitId}::uuid
          AND e.kind = 'installed' AND e.job_id IS NOT NULL)
    ORDER BY j.state = 'closed' DESC, j.id LIMIT 1`;
  return row?.id;
}
