import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Fact } from "../../domain/closeout/gate.ts";

export interface PassedEvaluation {
  jobId: string;
  planVersionId: string;
  ruleVersion: string;
  facts: Fact[];
  /** Receipt order of the last answer that the evaluation saw. */
  answersThrough: number;
  ledgerSeq: number;
  ledgerSha256: string;
  closedById: string;
}

/** Stores the evaluation, then closes the job on it; the database checks one against the other. */
export async function closeJob(
  tx: FirmTransaction,
  id: string,
  evaluation: PassedEvaluation,
  now: Date,
) {
  const closeOut = await tx.closeOut.create({
    data: {
      firmId: tx.firmId,
      id,
      passed: true,
      closedAt: now,
      ...evaluation,
      facts: evaluation.facts as object[],
    },
  });
  await tx.job.update({
    where: { firmId_id: { firmId: tx.firmId, id: evaluation.jobId } },
    data: { state: "closed", closeOutId: id, version: { increment: 1 } },
  });
  return closeOut;
}

export async function lastCloseOut(tx: FirmTransaction, jobId: string) {
  return tx.closeOut.findFirst({
    where: { firmId: tx.firmId, jobId },
    orderBy: { id: "desc" },
  });
}

export interface ReopeningRow {
  jobId: string;
  closeOutId: string;
  reason: string;
  reopenedById: string;
  ledgerSeq: number;
}

export async function reopenJob(tx: FirmTransaction, row: ReopeningRow, now: Date) {
  const reopening = await tx.reopening.create({
    data: { firmId: tx.firmId, id: uuidv7(), reopenedAt: now, ...row },
  });
  await tx.job.update({
    where: { firmId_id: { firmId: tx.firmId, id: row.jobId } },
    data: { state: "open", closeOutId: null, version: { increment: 1 } },
  });
  return reopening;
}

export async function readJob(tx: FirmTransaction, id: string) {
  return tx.job.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: {
      site: {
        include: {
          customer: true,
          banks: { select: { id: true, name: true }, orderBy: { id: "asc" } },
        },
      },
    },
  });
}

/** Jobs closed since the moment, the latest first. */
export async function jobsClosedSince(tx: FirmTransaction, moment: Date, most: number) {
  return tx.closeOut.findMany({
    where: { firmId: tx.firmId, closedAt: { gte: moment } },
    select: { jobId: true, closedAt: true },
    orderBy: { closedAt: "desc" },
    take: most,
  });
}
