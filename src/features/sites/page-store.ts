import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export interface SiteRow {
  id: string;
  reference: string;
  name: string | null;
  addressLine: string;
  locality: string;
  postcode: string;
  region: string;
  customerId: string;
  customer: string;
  units: number;
  openJobs: number;
}

export const SITE_COLUMNS = ["reference", "addressLine", "locality", "customer"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  reference: "s.reference",
  // House numbers stand before the street where they are written so.
  addressLine: "regexp_replace(fold_text(s.address_line), '^[0-9]+[a-z]? ', '')",
  locality: "fold_text(s.locality)",
  customer: "fold_text(c.name)",
};

const COUNTS = `(SELECT count(*)::int FROM unit u WHERE u.firm_id = s.firm_id
    AND u.site_id = s.id) AS units,
  (SELECT count(*)::int FROM job j WHERE j.firm_id = s.firm_id AND j.site_id = s.id
    AND j.state = 'open') AS "openJobs"`;

export interface SitePageFilter {
  place?: string | undefined;
  customerId?: string | undefined;
  region?: string | undefined;
  archived: boolean;
  sorting: Sorting;
  most: number;
}

export async function listForPage(tx: FirmTransaction, filter: SitePageFilter) {
  const { place, customerId, region, archived, sorting, most } = filter;
  return sortedRows<SiteRow>(tx, {
    select: `s.id, s.reference, s.name, s.address_line AS "addressLine", s.locality, s.postcode,
      s.region, c.id AS "customerId", c.name AS customer, ${COUNTS}`,
    from: "site s JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id",
    where: [
      "s.firm_id = $1::uuid",
      `s.archived_at IS ${archived ? "NOT NULL" : "NULL"}`,
      `($2::text IS NULL OR strpos(fold_text(concat_ws(' ', s.name, s.address_line, s.locality,
        s.postcode)), fold_text($2)) > 0)`,
      "($3::uuid IS NULL OR s.customer_id = $3::uuid)",
      "($4::text IS NULL OR s.region = $4)",
    ],
    values: [tx.firmId, place ?? null, customerId ?? null, region ?? null],
    by: ORDERS[sorting.column] ?? "s.reference",
    id: "s.id",
    descending: sorting.descending,
    after: sorting.after,
    most,
  });
}

export async function listRegions(tx: FirmTransaction): Promise<string[]> {
  const rows = await tx.site.groupBy({ by: ["region"], where: { firmId: tx.firmId } });
  return rows.map(({ region }) => region).sort();
}

/** Where the newest site is: the next one is mostly in the same country, by the same rules. */
export async function newestPlace(tx: FirmTransaction) {
  return tx.site.findFirst({
    where: { firmId: tx.firmId },
    select: { country: true, region: true, timeZone: true },
    orderBy: { id: "desc" },
  });
}

export interface Neighbour {
  id: string;
  reference: string;
  addressLine: string;
  latitude: number;
  longitude: number;
}

/** The firm's nearest sites within half a degree, for a drawing: flat distances will do. */
export async function neighboursOf(
  tx: FirmTransaction,
  site: { id: string; latitude: number; longitude: number },
  most: number,
): Promise<Neighbour[]> {
  const { id, latitude, longitude } = site;
  return tx.$queryRaw<Neighbour[]>`
    SELECT id, reference, address_line AS "addressLine", latitude, longitude FROM site
    WHERE firm_id = ${tx.firmId}::uuid AND id <> ${id}::uuid AND archived_at IS NULL
      AND latitude BETWEEN ${latitude}::float - 0.5 AND ${latitude}::float + 0.5
      AND longitude BETWEEN ${longitude}::float - 0.5 AND ${longitude}::float + 0.5
    ORDER BY (latitude - ${latitude}::float) ^ 2
      + ((longitude - ${longitude}::float) * cos(radians(${latitude}::float))) ^ 2, id
    LIMIT ${most}::int`;
}

const UNITS_MOST = 200;
const OPEN_MOST = 20;

/** What is at the site now, and what is still to be done there. */
export async function readHoldings(tx: FirmTransaction, siteId: string, now: Date) {
  const { firmId } = tx;
  const ofJob = { job: { select: { id: true, reference: true } } } as const;
  const atSite = { firmId, job: { siteId } };
  const units = await tx.unit.findMany({
    where: { firmId, siteId },
    include: { model: true, bank: true },
    orderBy: [{ bankId: "asc" }, { bankPosition: "asc" }, { id: "asc" }],
    take: UNITS_MOST + 1,
  });
  const jobs = await tx.job.findMany({
    where: { firmId, siteId, state: "open" },
    orderBy: { id: "desc" },
    take: OPEN_MOST,
  });
  const visits = await tx.visit.findMany({
    where: { ...atSite, state: "booked", endsAt: { gt: now } },
    include: { ...ofJob, crew: { select: { name: true } } },
    orderBy: { startsAt: "asc" },
    take: OPEN_MOST,
  });
  const snags = await tx.snag.findMany({
    where: { ...atSite, state: "open" },
    include: ofJob,
    orderBy: { id: "desc" },
    take: OPEN_MOST,
  });
  const concessions = await tx.concession.findMany({
    where: { ...atSite, revokedAt: null },
    include: { ...ofJob, grantedBy: { select: { name: true } } },
    orderBy: { id: "desc" },
    take: OPEN_MOST,
  });
  const commissioned = await firstInstalled(tx, siteId);
  return { units, jobs, visits, snags, concessions, commissioned, unitsMost: UNITS_MOST };
}

/** By unit the moment it was installed here last. */
async function firstInstalled(
  tx: FirmTransaction,
  siteId: string,
): Promise<ReadonlyMap<string, Date>> {
  const rows = await tx.$queryRaw<{ id: string; at: Date }[]>`
    SELECT u.id, max(e.at) AS at FROM unit u
    JOIN unit_event e ON e.firm_id = u.firm_id AND e.unit_id = u.id AND e.kind = 'installed'
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.site_id = ${siteId}::uuid GROUP BY u.id
    LIMIT ${UNITS_MOST}::int`;
  return new Map(rows.map(({ id, at }) => [id, at]));
}
