import type { FirmPipeline, FirmTransaction, Statement } from "../../db/scope.ts";
import { ledgerBodyText } from "../../domain/evidence/ledger-entry.ts";

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

/**
 * Adds one entry to the job's chain in the caller's transaction; the database links and hashes it.
 */
export async function appendToLedger(
  tx: FirmTransaction,
  jobId: string,
  entry: LedgerWrite,
): Promise<LedgerHead> {
  const body = canonicalBody(entry.body);
  const [row] = await tx.$queryRaw<LedgerHead[]>`
    SELECT seq, sha256 FROM ledger_append(
      ${tx.firmId}::uuid, ${jobId}::uuid, ${entry.kind}, ${entry.at.toISOString()}, ${body})`;
  if (!row) throw new Error("the ledger returned no entry");
  return row;
}

function canonicalBody(body: object): string {
  const canonical = ledgerBodyText(body as Parameters<typeof ledgerBodyText>[0]);
  if (!canonical.ok) throw new TypeError(canonical.problem);
  return canonical.text;
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
    values: [pipeline.firmId, jobId, entry.kind, entry.at.toISOString(), canonicalBody(entry.body)],
  };
}

export async function listLedger(
  tx: FirmTransaction,
  jobId: string,
  page: { after: number; most: number },
) {
  return tx.ledgerEntry.findMany({
    where: { firmId: tx.firmId, jobId, seq: { gt: page.after } },
    orderBy: { seq: "asc" },
    take: page.most,
    select: { seq: true, text: true, sha256: true },
  });
}
