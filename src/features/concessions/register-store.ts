// All concessions of the firm, asked of the database so that they are filtered, sorted and paged.
// The rule of their state is that of src/domain/corrective; a test holds the two together.
import type { FirmTransaction } from "../../db/scope.ts";
import { momentText, sortedRows } from "../../db/sorted-rows.ts";
import { type ConcessionState, EXPIRING_DAYS } from "../../domain/corrective/concession-state.ts";
import type { Sorting } from "../../web/sorted-list.ts";

/** Of concession `n` at site `s`; `at` is an expression for the moment. */
const stateAt = (at: string): string => `CASE
  WHEN n.revoked_at IS NOT NULL THEN 'withdrawn'
  WHEN n.expires_on < (${at} AT TIME ZONE s.time_zone)::date THEN 'expired'
  WHEN n.expires_on <= (${at} AT TIME ZONE s.time_zone)::date + ${EXPIRING_DAYS} THEN 'expiring'
  ELSE 'in-force' END`;

/** With `?` a state and the moment, as two texts. */
export const IN_STATE = `(${stateAt("(?::text[])[2]::timestamptz")}) = (?::text[])[1]`;
/** Found by the reference of job or site, by the item, or by a word of the reason. */
export const HOLDS_TEXT = `strpos(fold_text(concat_ws(' ', j.reference, s.reference, n.item_id,
  n.reason)), fold_text(?::text)) > 0`;

export const REGISTER_COLUMNS = ["granted", "expires", "job"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  granted: momentText("n.granted_at"),
  expires: "coalesce(n.expires_on::text, '9999')",
  job: "j.reference",
};

export interface RegisterFilter {
  state?: ConcessionState | undefined;
  grantedById?: string | undefined;
  jobId?: string | undefined;
  siteId?: string | undefined;
  q?: string | undefined;
}

export interface RegisterRow {
  id: string;
  jobId: string;
  jobReference: string;
  jobTitle: string;
  jobState: string;
  siteId: string;
  siteReference: string;
  timeZone: string;
  itemId: string;
  /** As the job's plan says it. */
  itemTitle: string;
  subject: string;
  /** The serial number, where the subject is a unit. */
  serial: string | null;
  reason: string;
  grantedById: string;
  grantedByName: string;
  grantedAt: Date;
  expiresOn: string | null;
  revokedAt: Date | null;
  revokedByName: string | null;
}

const SELECT = `n.id, n.job_id AS "jobId", j.reference AS "jobReference", j.title AS "jobTitle",
  j.state AS "jobState", s.id AS "siteId", s.reference AS "siteReference",
  s.time_zone AS "timeZone", n.item_id AS "itemId", n.subject, u.serial, n.reason,
  coalesce(jsonb_path_query_first(v.document, '$.stages[*].items[*] ? (@.id == $id).title',
    jsonb_build_object('id', n.item_id)) #>> '{}', n.item_id) AS "itemTitle",
  n.granted_by_id AS "grantedById", g.name AS "grantedByName", n.granted_at AS "grantedAt",
  n.expires_on::text AS "expiresOn", n.revoked_at AS "revokedAt", r.name AS "revokedByName"`;

const FROM = `concession n JOIN job j ON j.firm_id = n.firm_id AND j.id = n.job_id
  JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
  JOIN plan_version v ON v.firm_id = j.firm_id AND v.id = j.plan_version_id
  JOIN person g ON g.firm_id = n.firm_id AND g.id = n.granted_by_id
  LEFT JOIN person r ON r.firm_id = n.firm_id AND r.id = n.revoked_by_id
  LEFT JOIN unit u ON u.firm_id = n.firm_id
    AND u.id = CASE WHEN n.subject ~ '^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$'
      THEN n.subject::uuid END`;

const CONDITIONS = [
  "n.firm_id = $1::uuid",
  `($2::text[] IS NULL OR ${IN_STATE.replaceAll("?", "$2")})`,
  "($3::uuid IS NULL OR n.granted_by_id = $3)",
  "($4::uuid IS NULL OR n.job_id = $4)",
  "($5::uuid IS NULL OR s.id = $5)",
  `($6::text IS NULL OR ${HOLDS_TEXT.replaceAll("?", "$6")})`,
];

/** The firm's concessions, each with its place in the order. */
export async function registeredConcessions(
  tx: FirmTransaction,
  filter: RegisterFilter & { sorting: Sorting; most: number },
  now: Date,
) {
  const { state, grantedById, jobId, siteId, q, sorting, most } = filter;
  return sortedRows<RegisterRow>(tx, {
    ...{ select: SELECT, from: FROM, where: CONDITIONS },
    values: [
      ...[tx.firmId, state ? [state, now.toISOString()] : null, grantedById ?? null],
      ...[jobId ?? null, siteId ?? null, q ?? null],
    ],
    by: ORDERS[sorting.column] ?? "n.id::text",
    ...{ id: "n.id", descending: sorting.descending, after: sorting.after, most },
  });
}

/** Whoever granted one, for the filter of the page. */
export async function grantors(tx: FirmTransaction, most: number) {
  return tx.person.findMany({
    where: { firmId: tx.firmId, concessions: { some: {} } },
    select: { id: true, name: true },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    take: most,
  });
}
