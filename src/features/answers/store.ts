import type { FirmTransaction, Statement } from "../../db/scope.ts";

export interface AnswerInsert {
  id: string;
  itemId: string;
  subject: string;
  value: unknown;
  numberSi: number | null;
  instrumentId: string | null;
  note: string | null;
  photos: string[];
  takenAt: string;
  receiptOrder: number;
  outcome: string;
  clears: boolean;
  verdict: unknown;
  bodySha256: string;
}

/** Answers of these ids, whichever job of the firm they belong to: an id is used once in a firm. */
export const keptStatement = (firmId: string, ids: string[]): Statement => ({
  name: "answers_kept",
  text: `SELECT id, job_id AS "jobId", item_id AS "itemId", subject, verdict, body_sha256 AS "bodySha256"
    FROM answer WHERE firm_id = $1::uuid AND id = ANY($2::uuid[])`,
  values: [firmId, ids],
});

export interface KeptRow {
  id: string;
  jobId: string;
  itemId: string;
  subject: string;
  verdict: unknown;
  bodySha256: string;
}

export const insertStatement = (
  firm: { firmId: string },
  jobId: string,
  personId: string,
  answers: AnswerInsert[],
): Statement => ({
  name: "answers_insert",
  text: `INSERT INTO answer (firm_id, id, job_id, item_id, subject, value, number_si, instrument_id, note,
      photos, taken_at, taken_at_text, person_id, receipt_order, outcome, clears, verdict, body_sha256)
    SELECT $1::uuid, a.id, $2::uuid, a."itemId", a.subject, a.value, a."numberSi",
      a."instrumentId", a.note, a.photos, a."takenAt"::timestamptz, a."takenAt", $3::uuid,
      a."receiptOrder", a.outcome, a.clears, a.verdict, a."bodySha256"
    FROM jsonb_to_recordset($4::jsonb) AS a(id uuid, "itemId" text, subject text, value jsonb,
      "numberSi" float8, "instrumentId" uuid, note text, photos text[], "takenAt" text,
      "receiptOrder" int, outcome text, clears boolean, verdict jsonb, "bodySha256" text)`,
  values: [firm.firmId, jobId, personId, JSON.stringify(answers)],
});

export interface AnswerFilter {
  itemId?: string;
  subject?: string;
  after?: number;
  most: number;
}

export async function listAnswers(tx: FirmTransaction, jobId: string, filter: AnswerFilter) {
  return tx.answer.findMany({
    where: {
      firmId: tx.firmId,
      jobId,
      receiptOrder: { gt: filter.after ?? 0 },
      ...(filter.itemId ? { itemId: filter.itemId } : {}),
      ...(filter.subject !== undefined ? { subject: filter.subject } : {}),
    },
    orderBy: { receiptOrder: "asc" },
    take: filter.most,
  });
}
