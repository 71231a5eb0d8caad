import type { FirmTransaction } from "../../db/scope.ts";
import type { Head, StoredCheckpoint } from "../../domain/evidence/checkpoint.ts";

/** One checkpoint at a time in a firm. */
export async function lockCheckpoints(tx: FirmTransaction): Promise<void> {
  await tx.$executeRaw`
    SELECT pg_advisory_xact_lock(hashtextextended('checkpoint ' || ${tx.firmId}, 0))`;
}

export async function lastCheckpointDay(tx: FirmTransaction): Promise<string | undefined> {
  const [row] = await tx.$queryRaw<{ day: string }[]>`
    SELECT day::text AS day FROM ledger_checkpoint WHERE firm_id = ${tx.firmId}::uuid
    ORDER BY number DESC LIMIT 1`;
  return row?.day;
}

/** Where the ledger of every job of the firm ends now. */
export async function ledgerHeads(tx: FirmTransaction): Promise<Head[]> {
  return tx.$queryRaw<Head[]>`
    SELECT DISTINCT ON (job_id) job_id::text AS job, seq, sha256 FROM ledger_entry
    WHERE firm_id = ${tx.firmId}::uuid ORDER BY job_id, seq DESC`;
}

export interface CheckpointPage {
  after: number;
  most: number;
}

/** In the order of their numbers. */
export async function checkpointsAfter(
  tx: FirmTransaction,
  { after, most }: CheckpointPage,
): Promise<StoredCheckpoint[]> {
  return tx.$queryRaw<StoredCheckpoint[]>`
    SELECT number, day::text AS day, text, sha256 FROM ledger_checkpoint
    WHERE firm_id = ${tx.firmId}::uuid AND number > ${after} ORDER BY number LIMIT ${most}`;
}

export interface CheckpointRow {
  number: number;
  day: string;
  jobs: number;
  text: string;
  previous: string;
  sha256: string;
}

export async function addCheckpoint(tx: FirmTransaction, row: CheckpointRow): Promise<void> {
  const day = new Date(row.day);
  await tx.ledgerCheckpoint.create({ data: { firmId: tx.firmId, ...row, day } });
}

export async function listCheckpoints(tx: FirmTransaction, { after, most }: CheckpointPage) {
  return tx.ledgerCheckpoint.findMany({
    where: { firmId: tx.firmId, number: { gt: after } },
    select: { number: true, day: true, jobs: true, previous: true, sha256: true },
    orderBy: { number: "asc" },
    take: most,
  });
}
