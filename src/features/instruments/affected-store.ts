// Readings that an instrument's history casts doubt on. The spans come from the rules; what is
// within one is said here as isInSpan says it.
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { DoubtSpan } from "../../domain/acceptance/instrument-doubt.ts";

const ANSWERS_TOLD_MOST = 200;

/** The spans as rows of `s`, in their order. */
const rowsOf = (spans: readonly DoubtSpan[]) => Prisma.sql`
  ROWS FROM (jsonb_to_recordset(${JSON.stringify(spans)}::jsonb) AS (cause text, found text,
    "fromDay" text, "fromAt" timestamptz, "beforeDay" text, "beforeAt" timestamptz))
  WITH ORDINALITY AS s(cause, found, "fromDay", "fromAt", "beforeDay", "beforeAt", place)`;

const within = (answer: Prisma.Sql) => Prisma.sql`
  (s."fromDay" IS NULL OR left(${answer}.taken_at_text, 10) COLLATE "C" >= s."fromDay")
  AND (s."beforeDay" IS NULL OR left(${answer}.taken_at_text, 10) COLLATE "C" < s."beforeDay")
  AND (s."fromAt" IS NULL OR ${answer}.taken_at >= s."fromAt")
  AND (s."beforeAt" IS NULL OR ${answer}.taken_at < s."beforeAt")`;

const A = Prisma.sql`a`;
const B = Prisma.sql`b`;

export interface DoubtedJob {
  jobId: string;
  answers: number;
  /** The first of them, where there are very many. */
  answerIds: string[];
}

/** Jobs with readings in the span, in order of id. */
export async function doubtedJobs(
  tx: FirmTransaction,
  instrumentId: string,
  span: DoubtSpan,
  { after = null, most }: { after?: string | null | undefined; most: number },
): Promise<DoubtedJob[]> {
  return tx.$queryRaw<DoubtedJob[]>`
    SELECT a.job_id AS "jobId", count(*)::int AS answers,
      (array_agg(a.id ORDER BY a.receipt_order))[1:${ANSWERS_TOLD_MOST}::int] AS "answerIds"
    FROM answer a JOIN ${rowsOf([span])} ON ${within(A)}
    WHERE a.firm_id = ${tx.firmId}::uuid AND a.instrument_id = ${instrumentId}::uuid
      AND (${after}::uuid IS NULL OR a.job_id > ${after}::uuid)
    GROUP BY a.job_id ORDER BY a.job_id LIMIT ${most}`;
}

export interface AffectedRow {
  id: string;
  jobId: string;
  jobReference: string;
  jobState: string;
  siteId: string;
  siteReference: string;
  itemId: string;
  itemTitle: string;
  subject: string;
  takenAt: string;
  verdict: unknown;
  cause: DoubtSpan["cause"];
  found: string;
  replaced: boolean;
}

export interface AffectedFilter {
  replaced?: boolean;
  after?: string;
  most: number;
}

/** In order of id, each with the first span that it is in. */
export async function listAffected(
  tx: FirmTransaction,
  instrumentId: string,
  spans: readonly DoubtSpan[],
  {
    replaced = null,
    after = null,
    most,
  }: { [K in keyof AffectedFilter]: AffectedFilter[K] | null },
): Promise<AffectedRow[]> {
  return tx.$queryRaw<AffectedRow[]>`
    SELECT f.*, title.text AS "itemTitle" FROM (
      SELECT a.id, a.job_id AS "jobId", j.reference AS "jobReference", j.state AS "jobState",
        j.plan_version_id, t.id AS "siteId", t.reference AS "siteReference", a.item_id AS "itemId",
        a.subject, a.taken_at_text AS "takenAt", a.verdict, doubt.cause, doubt.found,
        ${isReplaced(spans)} AS replaced
      FROM ${doubtedIn(tx, instrumentId, spans)}
      WHERE ${after}::uuid IS NULL OR a.id > ${after}::uuid
    ) f
    JOIN plan_version v ON v.firm_id = ${tx.firmId}::uuid AND v.id = f.plan_version_id
    CROSS JOIN LATERAL (
      SELECT coalesce(min(item ->> 'title'), f."itemId") AS text
      FROM jsonb_path_query(v.document, '$.stages[*].items[*]') item
      WHERE item ->> 'id' = f."itemId") title
    WHERE ${replaced}::boolean IS NULL OR replaced = ${replaced}::boolean
    ORDER BY f.id LIMIT ${most}`;
}

/** Answers a with their job j, site t and first doubt. */
export const doubtedIn = (
  tx: FirmTransaction,
  instrumentId: string,
  spans: readonly DoubtSpan[],
) => Prisma.sql`(SELECT * FROM answer
    WHERE firm_id = ${tx.firmId}::uuid AND instrument_id = ${instrumentId}::uuid) a
  JOIN job j ON j.firm_id = a.firm_id AND j.id = a.job_id
  JOIN site t ON t.firm_id = j.firm_id AND t.id = j.site_id
  CROSS JOIN LATERAL (SELECT s.cause, s.found FROM ${rowsOf(spans)}
    WHERE ${within(A)} ORDER BY s.place LIMIT 1) doubt`;

/** A later attempt, in the same job or a re-test of its site, with an instrument that was sound. */
export const isReplaced = (spans: readonly DoubtSpan[]) => Prisma.sql`EXISTS (
  SELECT FROM answer b WHERE b.firm_id = a.firm_id
    AND b.job_id = ANY (a.job_id || ARRAY(SELECT r.job_id FROM retest_job r
      WHERE r.firm_id = a.firm_id AND r.instrument_id = a.instrument_id AND r.site_id = j.site_id))
    AND b.item_id = a.item_id AND b.subject = a.subject AND b.taken_at > a.taken_at
    AND b.instrument_id IS NOT NULL AND b.outcome <> 'stale-instrument'
    AND NOT (b.instrument_id = a.instrument_id
      AND EXISTS (SELECT FROM ${rowsOf(spans)} WHERE ${within(B)})))`;
