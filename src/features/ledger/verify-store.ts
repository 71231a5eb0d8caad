import type { FirmTransaction } from "../../db/scope.ts";

export interface CheckedJob {
  id: string;
  reference: string;
}

/** Jobs of the firm in the order of their ids. */
export async function jobsAfter(
  tx: FirmTransaction,
  after: string | undefined,
  most: number,
): Promise<CheckedJob[]> {
  return tx.job.findMany({
    where: { firmId: tx.firmId, ...(after ? { id: { gt: after } } : {}) },
    select: { id: true, reference: true },
    orderBy: { id: "asc" },
    take: most,
  });
}

export interface CheckedEntry {
  seq: number;
  kind: string;
  at: string;
  text: string;
  previous: string;
  sha256: string;
  /** What people wrote; null where it was erased. */
  texts: { path: string; salt: string | null; text: string | null }[];
}

export async function entriesAfter(
  tx: FirmTransaction,
  jobId: string,
  after: number,
  most: number,
): Promise<CheckedEntry[]> {
  return tx.ledgerEntry.findMany({
    where: { firmId: tx.firmId, jobId, seq: { gt: after } },
    select: {
      ...{ seq: true, kind: true, at: true, text: true, previous: true, sha256: true },
      texts: { select: { path: true, salt: true, text: true } },
    },
    orderBy: { seq: "asc" },
    take: most,
  });
}

/** Heads that were written down elsewhere than in the ledger: at each close-out of the job. */
export async function headsAtCloseOuts(tx: FirmTransaction, jobId: string) {
  return tx.closeOut.findMany({
    where: { firmId: tx.firmId, jobId },
    select: { ledgerSeq: true, ledgerSha256: true },
    orderBy: { ledgerSeq: "asc" },
  });
}
