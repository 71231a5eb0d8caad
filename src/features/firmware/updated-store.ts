import type { FirmTransaction } from "../../db/scope.ts";

export interface UpdatedUnit {
  unitId: string;
  level: string;
  readAt: Date;
}

/** Units of an update job that a reading on it left at or above a target of theirs. */
export async function updatedOnJob(tx: FirmTransaction, jobId: string): Promise<UpdatedUnit[]> {
  return tx.$queryRaw<UpdatedUnit[]>`
    SELECT DISTINCT ON (g.unit_id) g.unit_id AS "unitId", g.level, g.read_at AS "readAt"
    FROM firmware_reading g
    JOIN job j ON j.firm_id = g.firm_id AND j.id = g.job_id AND j.kind = 'firmware'
    JOIN unit u ON u.firm_id = g.firm_id AND u.id = g.unit_id
    JOIN firmware_target t ON t.firm_id = g.firm_id AND t.model_id = u.model_id
      AND t.state <> 'waiting' AND g.level_key >= t.target_key
    WHERE g.firm_id = ${tx.firmId}::uuid AND g.job_id = ${jobId}::uuid
    ORDER BY g.unit_id, g.read_at DESC, g.id DESC`;
}

/** The least of the targets that may count for a unit. */
export async function leastTargetKey(
  tx: FirmTransaction,
  unitId: string,
): Promise<bigint | undefined> {
  const [target] = await tx.$queryRaw<{ key: bigint }[]>`SELECT t.target_key AS key
    FROM unit u JOIN firmware_target t ON t.firm_id = u.firm_id AND t.model_id = u.model_id
      AND t.state <> 'waiting'
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.id = ${unitId}::uuid
    ORDER BY t.target_key LIMIT 1`;
  return target?.key;
}
