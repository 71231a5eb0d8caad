import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export interface CustomerRow {
  id: string;
  reference: string;
  name: string;
  email: string | null;
  phone: string | null;
  emailFailing: boolean;
  sites: number;
  openJobs: number;
}

export const CUSTOMER_COLUMNS = ["name", "reference"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  name: "fold_text(c.name)",
  reference: "c.reference",
};

const COUNTS = `(SELECT count(*)::int FROM site s WHERE s.firm_id = c.firm_id
    AND s.customer_id = c.id AND s.archived_at IS NULL) AS sites,
  (SELECT count(*)::int FROM site s JOIN job j ON j.firm_id = s.firm_id AND j.site_id = s.id
    WHERE s.firm_id = c.firm_id AND s.customer_id = c.id AND j.state = 'open') AS "openJobs"`;

export interface CustomerPageFilter {
  name?: string | undefined;
  archived: boolean;
  sorting: Sorting;
  most: number;
}

export async function listForPage(tx: FirmTransaction, filter: CustomerPageFilter) {
  const { name, archived, sorting, most } = filter;
  return sortedRows<CustomerRow>(tx, {
    select: `c.id, c.reference, c.name, c.email, c.phone,
      c.email_failing_at IS NOT NULL AS "emailFailing", ${COUNTS}`,
    from: "customer c",
    where: [
      "c.firm_id = $1::uuid",
      `c.archived_at IS ${archived ? "NOT NULL" : "NULL"}`,
      "($2::text IS NULL OR strpos(fold_text(c.name), fold_text($2)) > 0)",
    ],
    values: [tx.firmId, name ?? null],
    by: ORDERS[sorting.column] ?? "c.reference",
    id: "c.id",
    descending: sorting.descending,
    after: sorting.after,
    most,
  });
}

const SITES_MOST = 50;
const JOBS_MOST = 20;
const MAILS_MOST = 10;

/** What belongs to the customer: sites, the latest jobs there, the latest mails. */
export async function readBelongings(tx: FirmTransaction, customerId: string) {
  const { firmId } = tx;
  const sites = await tx.site.findMany({
    where: { firmId, customerId, mergedIntoId: null },
    include: { _count: { select: { units: { where: { state: "installed" } } } } },
    orderBy: { id: "asc" },
    take: SITES_MOST + 1,
  });
  const jobs = await tx.job.findMany({
    where: { firmId, site: { customerId } },
    include: { site: { select: { reference: true } } },
    orderBy: { id: "desc" },
    take: JOBS_MOST,
  });
  const mails = await tx.mail.findMany({
    where: { firmId, customerId },
    select: { id: true, subject: true, state: true, createdAt: true, sentAt: true },
    orderBy: { id: "desc" },
    take: MAILS_MOST,
  });
  return { sites: sites.slice(0, SITES_MOST), moreSites: sites.length > SITES_MOST, jobs, mails };
}
