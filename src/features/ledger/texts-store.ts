// What people wrote, kept apart from the ledger's entries, which name it by its salted hash.
import type { FirmTransaction } from "../../db/scope.ts";
import { type JsonObject, openBody } from "../../domain/evidence/salted-texts.ts";

/** Salt and text are null once they were erased. */
export interface KeptText {
  seq: number;
  path: string;
  salt: string | null;
  text: string | null;
}

/** Texts of the entries named, erased ones too, in the order of entries and paths. */
export async function textsOf(
  tx: FirmTransaction,
  jobId: string,
  seqs: readonly number[],
): Promise<KeptText[]> {
  if (seqs.length === 0) return [];
  return tx.ledgerText.findMany({
    where: { firmId: tx.firmId, jobId, seq: { in: [...seqs] } },
    select: { seq: true, path: true, salt: true, text: true },
    orderBy: [{ seq: "asc" }, { path: "asc" }],
  });
}

/** Texts of all entries up to one that are still kept; a job has as many as it was written to. */
export async function textsThrough(
  tx: FirmTransaction,
  jobId: string,
  through: number,
): Promise<{ entry: number; path: string; salt: string; text: string }[]> {
  return tx.$queryRaw`
    SELECT seq AS entry, path, salt, text FROM ledger_text
    WHERE firm_id = ${tx.firmId}::uuid AND job_id = ${jobId}::uuid AND seq <= ${through}
      AND text IS NOT NULL ORDER BY seq, path COLLATE "C"`;
}

/** An entry's body as it was written, as far as it is kept. */
export function bodyAsWritten(
  { seq, text }: { seq: number; text: string },
  texts: readonly KeptText[],
): JsonObject {
  const { body } = JSON.parse(text) as { body: JsonObject };
  const own = texts.flatMap((kept): [string, string][] =>
    kept.seq === seq && kept.text !== null ? [[kept.path, kept.text]] : [],
  );
  return openBody(body, new Map(own));
}
