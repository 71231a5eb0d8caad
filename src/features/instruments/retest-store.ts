import type { FirmTransaction } from "../../db/scope.ts";
import type { DoubtSpan } from "../../domain/acceptance/instrument-doubt.ts";
import { doubtedIn, isReplaced } from "./affected-store.ts";

/** One at a time an instrument, so that two requests do not both open what is missing. */
export async function lockRetests(tx: FirmTransaction, instrumentId: string): Promise<void> {
  await tx.$executeRaw`
    SELECT pg_advisory_xact_lock(hashtextextended(${`retest ${tx.firmId} ${instrumentId}`}, 0))`;
}

export interface SiteInDoubt {
  siteId: string;
  siteReference: string;
  archived: boolean;
  originJobId: string;
  planVersionId: string;
  unitIds: string[];
}

/**
 * Sites with readings in doubt that no later attempt has replaced and no re-test job covers: one
 * that is open, or that was opened after the reading came in. With the last job of such a reading
 * and its units that are still there, in order of that job's id.
 */
export async function sitesInDoubt(
  tx: FirmTransaction,
  instrumentId: string,
  spans: readonly DoubtSpan[],
): Promise<SiteInDoubt[]> {
  return tx.$queryRaw<SiteInDoubt[]>`
    SELECT d.*, ARRAY(SELECT u.id FROM job_unit ju
        JOIN unit u ON u.firm_id = ju.firm_id AND u.id = ju.unit_id
        WHERE ju.firm_id = ${tx.firmId}::uuid AND ju.job_id = d."originJobId"
          AND (u.state = 'received' OR u.state = 'installed' AND u.site_id = d."siteId")
        ORDER BY ju.position) AS "unitIds"
    FROM (
      SELECT DISTINCT ON (t.id) t.id AS "siteId", t.reference AS "siteReference",
        t.archived_at IS NOT NULL AS archived, j.id AS "originJobId",
        j.plan_version_id AS "planVersionId"
      FROM ${doubtedIn(tx, instrumentId, spans)}
      WHERE j.state <> 'cancelled' AND NOT ${isReplaced(spans)}
        AND NOT EXISTS (
          SELECT FROM retest_job r JOIN job rj ON rj.firm_id = r.firm_id AND rj.id = r.job_id
          WHERE r.firm_id = a.firm_id AND r.instrument_id = a.instrument_id
            AND r.site_id = j.site_id AND (rj.state = 'open'
              OR rj.state = 'closed' AND r.created_at >= a.received_at))
      ORDER BY t.id, a.received_at DESC, a.id
    ) d ORDER BY d."originJobId"`;
}

export interface RetestFields {
  jobId: string;
  instrumentId: string;
  siteId: string;
  originJobId: string;
}

export async function addRetest(tx: FirmTransaction, fields: RetestFields): Promise<void> {
  await tx.retestJob.create({ data: { firmId: tx.firmId, ...fields } });
}

/** The instrument's re-test jobs that were not cancelled, the newest first. */
export async function listRetests(tx: FirmTransaction, instrumentId: string, most: number) {
  return tx.retestJob.findMany({
    where: { firmId: tx.firmId, instrumentId, job: { state: { not: "cancelled" } } },
    select: {
      jobId: true,
      siteId: true,
      originJobId: true,
      job: { select: { reference: true, title: true, state: true, planVersionId: true } },
      site: { select: { reference: true } },
    },
    orderBy: { jobId: "desc" },
    take: most,
  });
}
