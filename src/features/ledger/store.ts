import { randomBytes } from "node:crypto";
import type { FirmTransaction, Statement } from "../../db/scope.ts";
import { ledgerBodyText } from "../../domain/evidence/ledger-entry.ts";
import { type JsonObject, saltBody } from "../../domain/evidence/salted-texts.ts";

export interface LedgerWrite {
  /** Dotted words: "answer.taken", "job.closed". */
  kind: string;
  /** Technical facts and ids; what people wrote goes in by its salted hash (salted-texts.ts). */
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
  const { body, texts } = salted(entry);
  const [row] = await tx.$queryRaw<LedgerHead[]>`
    SELECT seq, sha256 FROM ledger_append(
      ${tx.firmId}::uuid, ${jobId}::uuid, ${entry.kind}, ${entry.at.toISOString()}, ${body},
      ${texts}::jsonb)`;
  if (!row) throw new Error("the ledger returned no entry");
  return row;
}

const SALT_BYTES = 32;

/** The entry's body as it is hashed, and the texts that go beside it, both as JSON. */
function salted({ kind, body }: LedgerWrite): { body: string; texts: string } {
  const newSalt = (): string => randomBytes(SALT_BYTES).toString("hex");
  const apart = saltBody(kind, body as JsonObject, newSalt);
  const canonical = ledgerBodyText(apart.body);
  if (!canonical.ok) throw new TypeError(canonical.problem);
  return { body: canonical.text, texts: JSON.stringify(apart.texts) };
}

/** The same as one statement among others. */
export function ledgerStatement(
  firm: { firmId: string },
  jobId: string,
  entry: LedgerWrite,
): Statement {
  const { body, texts } = salted(entry);
  return {
    name: "ledger_append",
    text: "SELECT seq, sha256 FROM ledger_append($1::uuid, $2::uuid, $3, $4, $5, $6::jsonb)",
    values: [firm.firmId, jobId, entry.kind, entry.at.toISOString(), body, texts],
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

/** Entries that say who saw the record or was given it; they are no part of what it states. */
const LOOKS = [
  ...["evidence.exported", "record.viewed", "record.sent", "record.opened", "record.link-ended"],
];

export interface LedgerExtent {
  /** Last entry that is more than a look at the record; 0 for none. */
  seq: number;
  sha256: string;
  at: string;
  /** Octets of the texts up to there, one line feed after each. */
  bytes: number;
}

/** How far the record goes: the ledger without the looks at it after its last change. */
export async function recordExtent(tx: FirmTransaction, jobId: string): Promise<LedgerExtent> {
  const [row] = await tx.$queryRaw<LedgerExtent[]>`
    SELECT l.seq, l.sha256, l.at, (SELECT sum(octet_length(e.text) + 1)::float8 FROM ledger_entry e
      WHERE e.firm_id = l.firm_id AND e.job_id = l.job_id AND e.seq <= l.seq) AS bytes
    FROM ledger_entry l WHERE l.firm_id = ${tx.firmId}::uuid AND l.job_id = ${jobId}::uuid
      AND l.kind <> ALL (${LOOKS}) ORDER BY l.seq DESC LIMIT 1`;
  return row ?? { seq: 0, sha256: "0".repeat(64), at: "1970-01-01T00:00:00.000Z", bytes: 0 };
}

/** Whether the person's look at the record is on the ledger of that day (UTC) already. */
export async function viewIsKept(
  tx: FirmTransaction,
  jobId: string,
  personId: string,
  day: string,
): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ seq: number }[]>`
    SELECT seq FROM ledger_entry
    WHERE firm_id = ${tx.firmId}::uuid AND job_id = ${jobId}::uuid AND kind = 'record.viewed'
      AND left(at, 10) = ${day} AND text::jsonb -> 'body' ->> 'personId' = ${personId} LIMIT 1`;
  return row !== undefined;
}

/** Whether an export is on the ledger already with the record as it is now. */
export async function exportIsKept(
  tx: FirmTransaction,
  jobId: string,
  exportId: string,
  throughSha256: string,
): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ seq: number }[]>`
    SELECT seq FROM ledger_entry
    WHERE firm_id = ${tx.firmId}::uuid AND job_id = ${jobId}::uuid AND kind = 'evidence.exported'
      AND text::jsonb -> 'body' ->> 'exportId' = ${exportId}
      AND text::jsonb -> 'body' ->> 'throughSha256' = ${throughSha256} LIMIT 1`;
  return row !== undefined;
}

/** Locks the job, so that what its ledger says does not change; false when there is no such job. */
export async function lockLedger(tx: FirmTransaction, jobId: string): Promise<boolean> {
  const rows = await tx.$queryRaw<object[]>`
    SELECT id FROM job WHERE firm_id = ${tx.firmId}::uuid AND id = ${jobId}::uuid
    FOR NO KEY UPDATE`;
  return rows.length > 0;
}
