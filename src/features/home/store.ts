import type { FirmTransaction } from "../../db/scope.ts";

/** Open jobs whose work has begun, the one visited last first: what may be stuck. */
export async function jobsUnderWay(
  tx: FirmTransaction,
  { now, most, personId }: { now: Date; most: number; personId?: string | undefined },
): Promise<{ id: string; reference: string; title: string; place: string }[]> {
  return tx.$queryRaw`SELECT j.id, j.reference, j.title,
      concat_ws(', ', s.address_line, s.locality) AS place
    FROM job j JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
      JOIN LATERAL (SELECT max(v.starts_at) AS at FROM visit v
        WHERE v.firm_id = j.firm_id AND v.job_id = j.id AND v.state = 'booked'
          AND v.starts_at <= ${now}
          AND (${personId ?? null}::uuid IS NULL OR EXISTS (SELECT FROM visit_booking b
            WHERE b.firm_id = v.firm_id AND b.visit_id = v.id
              AND b.person_id = ${personId ?? null}::uuid))) last ON last.at IS NOT NULL
    WHERE j.firm_id = ${tx.firmId}::uuid AND j.state = 'open'
    ORDER BY last.at DESC, j.id LIMIT ${most}::int`;
}

export async function visitsOn(
  tx: FirmTransaction,
  { from, to, personId, most }: { from: Date; to: Date; personId?: string; most: number },
) {
  return tx.visit.findMany({
    where: {
      ...{ firmId: tx.firmId, state: "booked", startsAt: { lt: to }, endsAt: { gt: from } },
      ...(personId ? { bookings: { some: { personId } } } : {}),
    },
    include: { crew: true, job: { include: { site: { include: { customer: true } } } } },
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: most,
  });
}

export async function failedMails(tx: FirmTransaction, most: number) {
  return tx.mail.findMany({
    where: { firmId: tx.firmId, state: { in: ["failed", "returned"] } },
    select: { id: true, subject: true, recipient: true, lastError: true, state: true },
    orderBy: { id: "desc" },
    take: most,
  });
}

export interface LapsingQualification {
  personId: string;
  name: string;
  kind: string;
  /** Its last day, plain. */
  until: string;
}

/**
 * Qualifications of people who sign in whose last day is over or near, as near as each kind wants
 * to be told. One that was renewed counts by its later day.
 */
export async function qualificationsLapsing(
  tx: FirmTransaction,
  { today, personId, most }: { today: string; personId?: string | undefined; most: number },
): Promise<LapsingQualification[]> {
  return tx.$queryRaw`SELECT p.id AS "personId", p.name, k.name AS kind,
      max(q.valid_to)::text AS until
    FROM qualification q
      JOIN person p ON p.firm_id = q.firm_id AND p.id = q.person_id AND p.active
      JOIN qualification_kind k ON k.firm_id = q.firm_id AND k.id = q.kind_id
        AND k.archived_at IS NULL
    WHERE q.firm_id = ${tx.firmId}::uuid
      AND (${personId ?? null}::uuid IS NULL OR p.id = ${personId ?? null}::uuid)
    GROUP BY p.id, p.name, k.id, k.name, k.warn_days
    HAVING bool_and(q.valid_to IS NOT NULL) AND max(q.valid_to) <= ${today}::date + k.warn_days
    ORDER BY max(q.valid_to), p.name LIMIT ${most}::int`;
}

/** Concessions that stand and end by that day, or have ended, on jobs that are not cancelled. */
export async function concessionsEnding(tx: FirmTransaction, day: string, most: number) {
  return tx.concession.findMany({
    where: {
      ...{ firmId: tx.firmId, revokedAt: null, expiresOn: { lte: new Date(day) } },
      job: { state: "open" },
    },
    include: { job: { select: { id: true, reference: true, title: true } } },
    orderBy: [{ expiresOn: "asc" }, { id: "asc" }],
    take: most,
  });
}

/** The latest records that are whole: jobs closed on a passing evaluation. */
export async function latestRecords(tx: FirmTransaction, most: number) {
  return tx.closeOut.findMany({
    where: { firmId: tx.firmId, closedJobs: { some: {} } },
    include: { job: { include: { site: true } }, closedBy: { select: { name: true } } },
    orderBy: [{ closedAt: "desc" }, { id: "desc" }],
    take: most,
  });
}
