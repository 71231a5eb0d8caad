import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import type { FirmPipeline, FirmTransaction, Statement } from "../../db/scope.ts";

export interface LedgerWrite {
  /** Dotted words: "answer.taken", "job.closed". */
  kind: string;
  /** Technical facts and ids; personal fields stay out of the ledger's text. */
  body: object;
  at: Date;
}

export interface LedgerHead {
  seq: number;
  sha256: string;
}

/** Adds one entry to the job's chain in the caller's transaction; the database links and hashes it. */
export async function appendToLedger(
  tx: FirmTransaction,
  jobId: string,
  entry: LedgerWrite,
): Promise<LedgerHead> {
  const body = canonicalize(entry.body);
  const [row] = await tx.$queryRaw<LedgerHead[]>`
    SELECT seq, sha256 FROM ledger_append(
      ${tx.firmId}::uuid, ${jobId}::uuid, ${entry.kind}, ${entry.at.toISOString()}, ${body})`;
  if (!row) throw new Error("the ledger returned no entry");
  return row;
}

/** The same as one statement among others of a pipeline. */
export function ledgerStatement(
  pipeline: FirmPipeline,
  jobId: string,
  entry: LedgerWrite,
): Statement {
  return {
    name: "ledger_append",
    text: "SELECT seq, sha256 FROM ledger_append($1, $2, $3, $4, $5)",
    values: [pipeline.firmId, jobId, entry.kind, entry.at.toISOString(), canonicalize(entry.body)],
  };
}
